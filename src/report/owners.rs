//! Sections on an owner's papers: without the marks behind sources, which the report explains.

use super::blocks::{Block, Section};
use crate::assess::Mark;

impl Section {
    /// The section without marks. What a person wrote into lists and tables stays as it is.
    #[must_use]
    pub(crate) fn for_owners(mut self) -> Self {
        for block in &mut self.blocks {
            match block {
                Block::Paragraph { text }
                | Block::Note { text }
                | Block::Caution { text, .. }
                | Block::Finding { text, .. } => *text = Mark::without(text),
                Block::Plain { .. }
                | Block::Heading { .. }
                | Block::Facts { .. }
                | Block::Points { .. }
                | Block::Table { .. }
                | Block::Figure { .. }
                | Block::Photos { .. }
                | Block::Signature { .. } => {}
            }
        }
        self
    }
}
