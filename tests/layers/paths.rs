//! Every path that a source file names, with `super`, `self` and `crate` worked out.

use std::collections::BTreeSet;
use syn::buffer::{Cursor, TokenBuffer};
use syn::visit::{self, Visit};
use syn::{
    Attribute, ItemExternCrate, ItemMod, ItemUse, Macro, MetaList, UseTree, VisRestricted,
    Visibility,
};

/// Where a path begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Start {
    /// At the root of this crate.
    Crate,
    /// At the name of another crate, or at a name of the module itself.
    Other,
}

/// One path as it was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Found {
    /// Where it begins.
    pub(crate) start: Start,
    /// Its names from there on.
    pub(crate) names: Vec<String>,
    /// It brings in everything under the last name, or gives it another name, so that paths
    /// through it can no longer be followed.
    pub(crate) whole: bool,
    /// The name under which a `use` brings it in.
    pub(crate) brings: Option<Brings>,
}

/// What a `use` does with the path it names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Brings {
    /// The name under which the file then has it.
    pub(crate) name: String,
    /// It is handed on to other files.
    pub(crate) handed_on: bool,
}

/// Collects the paths of one file.
pub(crate) struct Paths {
    module: Vec<String>,
    /// The `use` being read hands on what it brings in.
    handing_on: bool,
    /// Names that stand alone, without a path.
    pub(crate) alone: BTreeSet<String>,
    /// What was found.
    pub(crate) found: Vec<Found>,
    /// `#[path]` and `include!`, which would hide a file from this check.
    pub(crate) hidden: Vec<String>,
}

impl Paths {
    /// Collects the paths of a file whose module lies at `module` under the crate's root.
    pub(crate) fn of(source: &str, module: Vec<String>) -> syn::Result<Self> {
        Ok(Self::of_file(&syn::parse_file(source)?, module))
    }

    /// The same of a file that is parsed already.
    pub(crate) fn of_file(file: &syn::File, module: Vec<String>) -> Self {
        let mut paths = Self {
            module,
            handing_on: false,
            alone: BTreeSet::new(),
            found: Vec::new(),
            hidden: Vec::new(),
        };
        paths.visit_file(file);
        paths
    }

    fn add(&mut self, external: bool, written: &[String], whole: bool) {
        let Some(first) = written.first() else { return };
        let (start, names) = match first.as_str() {
            _ if external => (Start::Other, written.to_vec()),
            "crate" | "gapledger" => (Start::Crate, written.get(1..).unwrap_or_default().to_vec()),
            "self" | "super" => (Start::Crate, self.worked_out(written)),
            // In the root itself a plain name is a name under the root.
            _ if self.module.is_empty() && super::rules::is_layer(first) => {
                (Start::Crate, written.to_vec())
            }
            _ => (Start::Other, written.to_vec()),
        };
        self.found.push(Found {
            start,
            names,
            whole,
            brings: None,
        });
    }

    /// As [`Self::add`], of a `use` that brings it in under a name.
    fn bring(&mut self, external: bool, written: &[String], whole: bool, name: &str) {
        self.add(external, written, whole);
        if let Some(found) = self.found.last_mut() {
            found.brings = Some(Brings {
                name: name.to_owned(),
                handed_on: self.handing_on,
            });
        }
    }

    /// `self::…` and `super::super::…` from this module, counted from the root.
    fn worked_out(&self, written: &[String]) -> Vec<String> {
        let mut names = self.module.clone();
        let mut rest = written;
        while let [first, others @ ..] = rest {
            match first.as_str() {
                "self" => {}
                "super" => {
                    names.pop();
                }
                _ => break,
            }
            rest = others;
        }
        names.extend_from_slice(rest);
        names
    }

    fn use_tree(&mut self, external: bool, prefix: &[String], tree: &UseTree) {
        let with = |name: &syn::Ident| {
            let mut names = prefix.to_vec();
            names.push(plain(name));
            names
        };
        match tree {
            UseTree::Path(path) => self.use_tree(external, &with(&path.ident), &path.tree),
            UseTree::Name(name) => {
                let names = self_ended(with(&name.ident));
                let last = names.last().cloned().unwrap_or_default();
                self.bring(external, &names, false, &last);
            }
            UseTree::Rename(name) => {
                let names = self_ended(with(&name.ident));
                self.bring(external, &names, true, &plain(&name.rename));
            }
            UseTree::Glob(_) => self.bring(external, prefix, true, "*"),
            UseTree::Group(group) => {
                for tree in &group.items {
                    self.use_tree(external, prefix, tree);
                }
            }
        }
    }

    /// Paths among the tokens of a macro: any names joined by `::`, with groups after them.
    fn tokens(&mut self, mut at: Cursor<'_>, prefix: &[String]) {
        while !at.eof() {
            let external = double_colon(at).filter(|_| prefix.is_empty());
            let begin = external.unwrap_or(at);
            if let Some((name, rest)) = begin.ident() {
                let mut names = prefix.to_vec();
                names.push(plain(&name));
                at = self.path_tokens(external.is_some(), names, rest, prefix.is_empty());
            } else if let Some((inner, _, _, rest)) = at.any_group() {
                self.tokens(inner, prefix);
                at = rest;
            } else if let Some((_, rest)) = begin.token_tree() {
                at = rest;
            } else {
                return;
            }
        }
    }

    /// Follows a path whose first name was read; gives back where it ends.
    fn path_tokens<'a>(
        &mut self,
        external: bool,
        mut names: Vec<String>,
        mut at: Cursor<'a>,
        alone: bool,
    ) -> Cursor<'a> {
        while let Some(after) = double_colon(at) {
            if let Some((name, rest)) = after.ident() {
                names.push(plain(&name));
                at = rest;
            } else if let Some((inner, _, _, rest)) = after.any_group() {
                self.tokens(inner, &names);
                return rest;
            } else if let Some((star, rest)) = after.punct()
                && star.as_char() == '*'
            {
                self.add(external, &names, true);
                return rest;
            } else {
                break;
            }
        }
        let next = at.ident().map(|(name, _)| plain(&name));
        let renamed = next.as_deref() == Some("as");
        if names == ["crate"] && next.is_some() && !renamed {
            // `extern crate name`: the name is read next, as a path of its own.
            self.add(true, next.as_slice(), true);
        } else if names.len() > 1 || renamed || !alone {
            self.add(external, &self_ended(names), renamed);
        } else {
            self.alone.extend(names);
        }
        at
    }
}

/// `use a::b::{self}` names `a::b`.
fn self_ended(mut names: Vec<String>) -> Vec<String> {
    if names.len() > 1 && names.last().is_some_and(|last| last == "self") {
        names.pop();
    }
    names
}

/// A name without the mark of a raw identifier.
fn plain(name: &syn::Ident) -> String {
    let name = name.to_string();
    name.strip_prefix("r#").map_or(name.clone(), str::to_owned)
}

/// Where the tokens go on behind `::`, if that stands here.
fn double_colon(at: Cursor<'_>) -> Option<Cursor<'_>> {
    let (first, rest) = at.punct()?;
    let (second, rest) = rest.punct()?;
    (first.as_char() == ':' && second.as_char() == ':').then_some(rest)
}

impl<'ast> Visit<'ast> for Paths {
    fn visit_item_use(&mut self, item: &'ast ItemUse) {
        self.handing_on = !matches!(item.vis, Visibility::Inherited);
        self.use_tree(item.leading_colon.is_some(), &[], &item.tree);
        for attribute in &item.attrs {
            self.visit_attribute(attribute);
        }
    }

    fn visit_item_extern_crate(&mut self, item: &'ast ItemExternCrate) {
        let name = plain(&item.ident);
        if name == "self" {
            self.add(false, &["crate".to_owned()], true);
        } else {
            self.add(true, &[name], true);
        }
    }

    fn visit_item_mod(&mut self, item: &'ast ItemMod) {
        self.module.push(plain(&item.ident));
        visit::visit_item_mod(self, item);
        self.module.pop();
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let names: Vec<String> = path
            .segments
            .iter()
            .map(|part| plain(&part.ident))
            .collect();
        if names.len() > 1 || path.leading_colon.is_some() {
            self.add(path.leading_colon.is_some(), &names, false);
        } else {
            self.alone.extend(names);
        }
        visit::visit_path(self, path);
    }

    /// `pub(crate)`, `pub(in …)`: only a module above in the same layer can be named there.
    fn visit_vis_restricted(&mut self, _: &'ast VisRestricted) {}

    fn visit_macro(&mut self, used: &'ast Macro) {
        if used
            .path
            .segments
            .last()
            .is_some_and(|part| part.ident == "include")
        {
            self.hidden.push(String::from("include!"));
        }
        self.visit_path(&used.path);
        self.tokens(TokenBuffer::new2(used.tokens.clone()).begin(), &[]);
    }

    fn visit_attribute(&mut self, attribute: &'ast Attribute) {
        if attribute.path().is_ident("path") {
            self.hidden.push(String::from("#[path]"));
        }
        visit::visit_attribute(self, attribute);
    }

    fn visit_meta_list(&mut self, list: &'ast MetaList) {
        self.visit_path(&list.path);
        self.tokens(TokenBuffer::new2(list.tokens.clone()).begin(), &[]);
    }
}
