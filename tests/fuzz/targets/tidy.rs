//! The target `tidy` of `cargo fuzz`: what it does is in `src/targets/tidy.rs`.
#![no_main]

miche_fuzz::target!(miche_fuzz::targets::tidy::run);
