//! The target `published` of `cargo fuzz`: what it does is in `src/targets/published.rs`.
#![no_main]

miche_fuzz::target!(miche_fuzz::targets::published::run);
