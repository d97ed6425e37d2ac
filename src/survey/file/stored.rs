//! What the structs of every format are made of: conversion both ways, numbers, texts and lists.

use super::limits::LONGEST_TEXT_BYTES;
use crate::survey::limits::{MOST_GAPS, MOST_RECORDS};
use serde::de::{self, Deserializer, SeqAccess, Visitor};
use serde::ser::{self, Serializer};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::fmt;
use std::marker::PhantomData;

/// A value of the file and the runtime value it stands for. Nothing is lost either way.
pub(in crate::survey::file) trait Stored: Sized {
    /// The runtime type.
    type Live;
    /// The runtime value.
    fn live(self) -> Self::Live;
    /// The value to write.
    fn stored(live: &Self::Live) -> Self;
}

macro_rules! stored_as_it_is {
    ($($kind:ty),*) => {$(
        impl Stored for $kind {
            type Live = $kind;
            fn live(self) -> $kind {
                self
            }
            fn stored(live: &$kind) -> Self {
                *live
            }
        }
    )*};
}
stored_as_it_is!(bool, u32, i64, usize);

impl<T: Stored> Stored for Option<T> {
    type Live = Option<T::Live>;
    fn live(self) -> Self::Live {
        self.map(T::live)
    }
    fn stored(live: &Self::Live) -> Self {
        live.as_ref().map(T::stored)
    }
}

impl<T: Stored> Stored for Vec<T> {
    type Live = Vec<T::Live>;
    fn live(self) -> Self::Live {
        self.into_iter().map(T::live).collect()
    }
    fn stored(live: &Self::Live) -> Self {
        live.iter().map(T::stored).collect()
    }
}

/// A finite number. RON would also take `inf` and `NaN`; here they are refused where they stand.
#[derive(Clone, Copy)]
pub(in crate::survey::file) struct Number(pub(in crate::survey::file) f64);

impl Stored for Number {
    type Live = f64;
    fn live(self) -> f64 {
        self.0
    }
    fn stored(live: &f64) -> Self {
        Self(*live)
    }
}

impl<'de> Deserialize<'de> for Number {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let value = f64::deserialize(deserializer)?;
        if value.is_finite() {
            Ok(Self(value))
        } else {
            Err(de::Error::custom(
                "this number is not finite: write a plain number, or leave the field out if it is unknown",
            ))
        }
    }
}

impl Serialize for Number {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let value = self.0;
        // A whole number reads better without `.0`. Up to 1e15 it keeps every digit, and
        // minus zero keeps its sign by staying as it is.
        let whole = value.fract() == 0.0 && value.abs() < 1e15;
        if whole && !(value == 0.0 && value.is_sign_negative()) {
            #[expect(clippy::cast_possible_truncation, reason = "whole and below 1e15")]
            let whole = value as i64;
            serializer.serialize_i64(whole)
        } else {
            serializer.serialize_f64(value)
        }
    }
}

/// A text, written with as few escapes as are needed to read it back.
#[derive(Clone, Default)]
pub(in crate::survey::file) struct Text(pub(in crate::survey::file) String);

impl Text {
    pub(in crate::survey::file) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl<'de> Deserialize<'de> for Text {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        if text.len() > LONGEST_TEXT_BYTES {
            return Err(de::Error::custom(format!(
                "this text has {} bytes, and no text of a survey more than {LONGEST_TEXT_BYTES}: keep the rest in a file of its own",
                text.len()
            )));
        }
        Ok(Self(text))
    }
}

impl Stored for Text {
    type Live = String;
    fn live(self) -> String {
        self.0
    }
    fn stored(live: &String) -> Self {
        Self(live.clone())
    }
}

impl Serialize for Text {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let quoted = quoted(&self.0);
        ron::value::RawValue::from_ron(&quoted)
            .map_err(ser::Error::custom)?
            .serialize(serializer)
    }
}

/// The text between quotes. What a reader could not see, or what would change the order of the
/// letters on the screen, is written as an escape; an apostrophe or an accent is not.
fn quoted(text: &str) -> String {
    let mut quoted = String::with_capacity(text.len() + 2);
    quoted.push('"');
    for letter in text.chars() {
        match letter {
            '"' => quoted.push_str("\\\""),
            '\\' => quoted.push_str("\\\\"),
            '\n' => quoted.push_str("\\n"),
            '\r' => quoted.push_str("\\r"),
            '\t' => quoted.push_str("\\t"),
            hidden if is_hidden(hidden) => quoted.extend(hidden.escape_unicode()),
            plain => quoted.push(plain),
        }
    }
    quoted.push('"');
    quoted
}

fn is_hidden(letter: char) -> bool {
    letter.is_control()
        || matches!(
            letter,
            '\u{ad}'
                | '\u{61c}'
                | '\u{200b}'..='\u{200f}'
                | '\u{2028}'..='\u{202e}'
                | '\u{2060}'..='\u{206f}'
                | '\u{feff}'
        )
}

/// The name of a photo: a plain file name in the photo folder and nothing that leads elsewhere.
#[derive(Clone)]
pub(in crate::survey::file) struct PhotoName(String);

impl Stored for PhotoName {
    type Live = String;
    fn live(self) -> String {
        self.0
    }
    fn stored(live: &String) -> Self {
        Self(live.clone())
    }
}

impl Serialize for PhotoName {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Text(self.0.clone()).serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for PhotoName {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let name = String::deserialize(deserializer)?;
        if crate::survey::file::is_plain_file_name(&name) {
            Ok(Self(name))
        } else {
            Err(de::Error::custom(format!(
                "the photo name {name:?} is not a plain file name: put the photo into the photo folder and write its name alone, without a folder"
            )))
        }
    }
}

/// The name of a file in the data folder: a plain file name and nothing that leads elsewhere.
#[derive(Clone)]
pub(in crate::survey::file) struct DataName(String);

impl Stored for DataName {
    type Live = String;
    fn live(self) -> String {
        self.0
    }
    fn stored(live: &String) -> Self {
        Self(live.clone())
    }
}

impl Serialize for DataName {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Text(self.0.clone()).serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for DataName {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let name = String::deserialize(deserializer)?;
        if crate::survey::file::is_plain_file_name(&name) {
            Ok(Self(name))
        } else {
            Err(de::Error::custom(format!(
                "the name {name:?} is not a plain file name: put the file into the data folder and write its name alone, without a folder"
            )))
        }
    }
}

/// A moment on the clock of the place, written `2026-11-05 14:30`.
#[derive(Clone, Copy)]
pub(in crate::survey::file) struct Moment(crate::survey::Moment);

impl Stored for Moment {
    type Live = crate::survey::Moment;
    fn live(self) -> Self::Live {
        self.0
    }
    fn stored(live: &Self::Live) -> Self {
        Self(*live)
    }
}

impl Serialize for Moment {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for Moment {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        crate::survey::Moment::parse(&text)
            .map(Self)
            .ok_or_else(|| {
                de::Error::custom(format!(
                    "{text:?} is no moment from 1970 to 2100: write it as 2026-11-05 14:30"
                ))
            })
    }
}

/// An entry of a list: how many there may be, and its number if entries have one.
pub(in crate::survey::file) trait Entry {
    /// What one is called.
    const WORD: &'static str;
    /// The most of them in one list.
    const MOST: usize = MOST_RECORDS;
    /// Its number, which no other entry of the list may have.
    fn number(&self) -> Option<u32> {
        None
    }
}

/// The most gaps, for the one list that may be longer than the others.
pub(in crate::survey::file) const MOST_GAP_ENTRIES: usize = MOST_GAPS;

/// Reads a list, and stops at the entry that is one too many or whose number is taken, so that
/// the error names its line.
pub(in crate::survey::file) fn list<'de, D, T>(deserializer: D) -> Result<Vec<T>, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de> + Entry,
{
    deserializer.deserialize_seq(ListVisitor(PhantomData))
}

struct ListVisitor<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de> + Entry> Visitor<'de> for ListVisitor<T> {
    type Value = Vec<T>;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "a list of {}s", T::WORD)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut entries: A) -> Result<Vec<T>, A::Error> {
        let mut list = Vec::new();
        let mut taken = BTreeSet::new();
        while let Some(entry) = entries.next_element::<T>()? {
            if list.len() == T::MOST {
                return Err(de::Error::custom(format!(
                    "there are more than {} {}s in one list: that is more than any survey has",
                    T::MOST,
                    T::WORD
                )));
            }
            if let Some(number) = entry.number()
                && !taken.insert(number)
            {
                return Err(de::Error::custom(format!(
                    "the {} that ends here has id {number}, as another one before it: give it an id that no other {} has",
                    T::WORD,
                    T::WORD
                )));
            }
            list.push(entry);
        }
        Ok(list)
    }
}

/// A struct of the file whose fields stand for the runtime struct of the same name. What stands
/// after `always` is the file's own, with the value that is written.
macro_rules! record {
    (
        $(#[$meta:meta])*
        $name:ident { $($(#[$field_meta:meta])* $field:ident: $kind:ty,)+ }
        $(always { $own:ident: $own_kind:ty = $value:expr })?
    ) => {
        #[derive(serde::Serialize, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        $(#[$meta])*
        pub(in crate::survey::file) struct $name {
            $(pub(in crate::survey::file) $own: $own_kind,)?
            $($(#[$field_meta])* pub(in crate::survey::file) $field: $kind,)+
        }

        impl $crate::survey::file::stored::Stored for $name {
            type Live = $crate::survey::file::live::$name;
            fn live(self) -> Self::Live {
                $crate::survey::file::live::$name { $($field: self.$field.live(),)+ }
            }
            fn stored(live: &Self::Live) -> Self {
                Self { $($own: $value,)? $($field: <$kind>::stored(&live.$field),)+ }
            }
        }
    };
}

/// An enum of the file, written as one word each, that stands for the runtime enum of that name;
/// the words are those of JSON and CSV too.
macro_rules! words {
    ($($(#[$meta:meta])* $name:ident { $($variant:ident = $word:literal,)+ })+) => {$(
        $(#[$meta])*
        #[derive(Clone, Copy, serde::Serialize, serde::Deserialize)]
        pub(in crate::survey::file) enum $name {
            $(#[serde(rename = $word)] $variant,)+
        }

        impl $crate::survey::file::stored::Stored for $name {
            type Live = $crate::survey::file::live::$name;
            fn live(self) -> Self::Live {
                match self {
                    $(Self::$variant => Self::Live::$variant,)+
                }
            }
            fn stored(live: &Self::Live) -> Self {
                match live {
                    $($crate::survey::file::live::$name::$variant => Self::$variant,)+
                }
            }
        }

        impl $crate::survey::word::Word for $crate::survey::file::live::$name {
            fn word(&self) -> &'static str {
                match self {
                    $(Self::$variant => $word,)+
                }
            }
        }
    )+};
}

/// An enum of the file, each word with its own fields, for the runtime enum of that name; the
/// words are those of JSON and CSV too.
macro_rules! choice {
    ($(#[$meta:meta])* $name:ident {
        $($variant:ident = $word:literal { $($(#[$field_meta:meta])* $field:ident: $kind:ty,)+ })+
    }) => {
        $(#[$meta])*
        #[derive(serde::Serialize, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        pub(in crate::survey::file) enum $name {
            $(#[serde(rename = $word)] $variant { $($(#[$field_meta])* $field: $kind,)+ },)+
        }

        impl $crate::survey::file::stored::Stored for $name {
            type Live = $crate::survey::file::live::$name;
            fn live(self) -> Self::Live {
                match self {
                    $(Self::$variant { $($field),+ } => {
                        Self::Live::$variant { $($field: $field.live()),+ }
                    })+
                }
            }
            fn stored(live: &Self::Live) -> Self {
                match live {
                    $($crate::survey::file::live::$name::$variant { $($field),+ } => {
                        Self::$variant { $($field: <$kind>::stored($field)),+ }
                    })+
                }
            }
        }

        impl $crate::survey::word::Word for $crate::survey::file::live::$name {
            fn word(&self) -> &'static str {
                match self {
                    $(Self::$variant { .. } => $word,)+
                }
            }
        }
    };
}

/// The number of a record, written as a plain whole number.
macro_rules! numbers {
    ($($name:ident),+ $(,)?) => {$(
        #[derive(Clone, Copy, serde::Serialize, serde::Deserialize)]
        #[serde(transparent)]
        pub(in crate::survey::file) struct $name(pub(in crate::survey::file) u32);

        impl $crate::survey::file::stored::Stored for $name {
            type Live = $crate::survey::file::live::$name;
            fn live(self) -> Self::Live {
                $crate::survey::file::live::$name(self.0)
            }
            fn stored(live: &Self::Live) -> Self {
                Self(live.0)
            }
        }
    )+};
}

/// Records with a number of their own, and the word for one.
macro_rules! numbered {
    ($($name:ident = $word:literal),+ $(,)?) => {$(
        impl $crate::survey::file::stored::Entry for $name {
            const WORD: &'static str = $word;
            fn number(&self) -> Option<u32> {
                Some(self.id.0)
            }
        }
    )+};
}

pub(in crate::survey::file) use {choice, numbered, numbers, record, words};
