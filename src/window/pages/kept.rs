//! What is put together for some choice and revision, and kept until one of them changes.

use std::sync::Arc;

/// Something worked out for a key, kept until the key changes.
#[derive(Clone, Debug)]
pub(super) struct Kept<K, V> {
    last: Option<(K, Arc<V>)>,
    made: u64,
}

impl<K, V> Default for Kept<K, V> {
    fn default() -> Self {
        Self {
            last: None,
            made: 0,
        }
    }
}

impl<K: PartialEq, V> Kept<K, V> {
    /// What was kept for this key, or else what `make` makes of it.
    pub(super) fn get(&mut self, key: K, make: impl FnOnce() -> V) -> Arc<V> {
        match &self.last {
            Some((kept, value)) if *kept == key => Arc::clone(value),
            _ => {
                let value = Arc::new(make());
                self.made += 1;
                self.last = Some((key, Arc::clone(&value)));
                value
            }
        }
    }

    /// What was kept last, whatever it is from.
    pub(super) fn last(&self) -> Option<&V> {
        self.last.as_ref().map(|(_, value)| &**value)
    }

    /// How often it was made.
    pub(super) fn times_made(&self) -> u64 {
        self.made
    }
}
