//! The parts book.

/// The book.
pub struct Book;
