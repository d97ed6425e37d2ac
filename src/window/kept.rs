//! What was worked out once and is kept until what it is from changes.

use std::sync::Arc;

/// Something worked out for a key, kept until the key changes.
#[derive(Clone, Debug)]
pub struct Kept<K, V>(Option<(K, Arc<V>)>);

impl<K, V> Default for Kept<K, V> {
    fn default() -> Self {
        Self(None)
    }
}

impl<K: PartialEq, V> Kept<K, V> {
    /// What was kept for this key, or else what `make` makes of it.
    pub fn get(&mut self, key: K, make: impl FnOnce() -> V) -> Arc<V> {
        match &self.0 {
            Some((kept, value)) if *kept == key => Arc::clone(value),
            _ => {
                let value = Arc::new(make());
                self.0 = Some((key, Arc::clone(&value)));
                value
            }
        }
    }
}

impl<K, V> Kept<K, V> {
    /// What was kept last, whatever it is from.
    #[must_use]
    pub fn last(&self) -> Option<&V> {
        self.0.as_ref().map(|(_, value)| &**value)
    }
}
