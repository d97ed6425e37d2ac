//! Survey in, answers out.
