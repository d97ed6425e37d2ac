//! Objects whose keys keep their order, and the one rule for what is not known.

use crate::assess::Answer;
use crate::assess::quantity::NO_BREAK;
use crate::survey::Field;
use serde::ser::{Serialize, SerializeMap, Serializer};
use std::borrow::Cow;

/// A JSON value.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Value {
    Null,
    /// Null, with the reason beside it where it stands behind a key.
    NotKnown(String),
    Flag(bool),
    Whole(u64),
    Signed(i64),
    Number(f64),
    Text(String),
    List(Vec<Value>),
    Object(Object),
}

impl Serialize for Value {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Null | Self::NotKnown(_) => serializer.serialize_unit(),
            Self::Flag(flag) => serializer.serialize_bool(*flag),
            Self::Whole(number) => serializer.serialize_u64(*number),
            Self::Signed(number) => serializer.serialize_i64(*number),
            Self::Number(number) => serializer.serialize_f64(*number),
            Self::Text(text) => serializer.serialize_str(text),
            Self::List(values) => values.serialize(serializer),
            Self::Object(object) => object.serialize(serializer),
        }
    }
}

impl From<bool> for Value {
    fn from(flag: bool) -> Self {
        Self::Flag(flag)
    }
}

impl From<u32> for Value {
    fn from(number: u32) -> Self {
        Self::Whole(u64::from(number))
    }
}

impl From<usize> for Value {
    fn from(number: usize) -> Self {
        Self::Whole(number as u64)
    }
}

impl From<i64> for Value {
    fn from(number: i64) -> Self {
        Self::Signed(number)
    }
}

impl From<f64> for Value {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl From<&str> for Value {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<&String> for Value {
    fn from(text: &String) -> Self {
        Self::Text(text.clone())
    }
}

impl From<String> for Value {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<Object> for Value {
    fn from(object: Object) -> Self {
        Self::Object(object)
    }
}

impl<T: Into<Value>> From<Vec<T>> for Value {
    fn from(values: Vec<T>) -> Self {
        Self::List(values.into_iter().map(Into::into).collect())
    }
}

/// What may be absent: null then means that there is none.
impl<T: Into<Value>> From<Option<T>> for Value {
    fn from(value: Option<T>) -> Self {
        value.map_or(Self::Null, Into::into)
    }
}

/// What may not be known.
impl<T: Into<Value>> From<Answer<T>> for Value {
    fn from(answer: Answer<T>) -> Self {
        answer.map_or_else(|unknown| Self::NotKnown(unknown.reason), Into::into)
    }
}

impl<T: Clone + Into<Value>> From<&Answer<T>> for Value {
    fn from(answer: &Answer<T>) -> Self {
        answer.clone().into()
    }
}

/// A JSON object: its keys in the order they were added.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Object(Vec<(Cow<'static, str>, Value)>);

impl Serialize for Object {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(self.0.len()))?;
        for (key, value) in &self.0 {
            map.serialize_entry(key, value)?;
        }
        map.end()
    }
}

/// A name in the JSON: a field of the survey has the name that it has in the survey file.
pub(super) trait Key {
    fn text(self) -> &'static str;
}

impl Key for &'static str {
    fn text(self) -> &'static str {
        self
    }
}

impl Key for Field {
    fn text(self) -> &'static str {
        self.file_key()
    }
}

impl Object {
    pub(super) fn new() -> Self {
        Self::default()
    }

    /// Adds a key. What is not known is null, and the key with `_not_known` behind it gives the
    /// reason. A number that JSON cannot hold is not known, never something else.
    pub(super) fn with(mut self, key: impl Key, value: impl Into<Value>) -> Self {
        let key = key.text();
        match value.into() {
            Value::Number(number) if !number.is_finite() => {
                self.not_known(key, "the result is not a finite number")
            }
            Value::NotKnown(reason) => self.not_known(key, &reason),
            value => {
                self.0.push((Cow::Borrowed(key), value));
                self
            }
        }
    }

    /// Adds a key for what comes of an answer, or the reason why it is not known.
    pub(super) fn found<T, V: Into<Value>>(
        self,
        key: &'static str,
        answer: &Answer<T>,
        value: impl FnOnce(&T) -> V,
    ) -> Self {
        self.with(key, answer.as_ref().map(value).map_err(Clone::clone))
    }

    /// Adds a key with a list of what comes of each of some items.
    pub(super) fn list<I: IntoIterator, V: Into<Value>>(
        self,
        key: impl Key,
        items: I,
        value: impl Fn(I::Item) -> V,
    ) -> Self {
        self.with(key, list(items, value))
    }

    /// Adds a key that holds what was recorded, if it was.
    pub(super) fn recorded<T: Into<Value>>(self, key: impl Key, value: Option<T>) -> Self {
        match value {
            Some(value) => self.with(key, value),
            None => self.not_known(key.text(), "not given in the survey"),
        }
    }

    pub(super) fn not_known(mut self, key: &'static str, reason: &str) -> Self {
        self.0.push((Cow::Borrowed(key), Value::Null));
        let reason = Value::Text(plain(reason));
        self.0
            .push((Cow::Owned(format!("{key}_not_known")), reason));
        self
    }
}

/// A sentence without the no-break spaces that keep numbers and units on a line: programs search
/// for plain ones.
pub(super) fn plain(sentence: &str) -> String {
    sentence.replace(NO_BREAK, " ")
}

/// What comes of each of some items.
pub(super) fn list<I: IntoIterator, V>(items: I, value: impl Fn(I::Item) -> V) -> Vec<V> {
    items.into_iter().map(value).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::NotKnown;

    #[test]
    fn what_is_not_known_is_null_with_its_reason() {
        let object = Object::new()
            .with("b_first", 1.5)
            .with("a_w", Answer::<f64>::Err(NotKnown::because("no area")))
            .recorded("length_m", None::<f64>)
            .with("c_w", f64::NAN)
            .with("space", None::<u32>)
            .with("behind_gap", Some(3_u32));
        let text = serde_json::to_string(&object).expect("JSON");
        let expected = "{\"b_first\":1.5,\"a_w\":null,\"a_w_not_known\":\"no area\",\
            \"length_m\":null,\"length_m_not_known\":\"not given in the survey\",\
            \"c_w\":null,\"c_w_not_known\":\"the result is not a finite number\",\
            \"space\":null,\"behind_gap\":3}";
        assert_eq!(text, expected);
    }
}
