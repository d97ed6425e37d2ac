//! Closed forms, books, steady weather.
