//! What is said of trials.
