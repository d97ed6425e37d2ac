//! Gapledger.
fn main() {}
