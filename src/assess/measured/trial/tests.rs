//! Trials against closed forms and numbers from outside.
