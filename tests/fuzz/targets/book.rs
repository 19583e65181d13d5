//! The target `book` of `cargo fuzz`: what it does is in `src/targets/book.rs`.
#![no_main]

miche_fuzz::target!(miche_fuzz::targets::book::run);
