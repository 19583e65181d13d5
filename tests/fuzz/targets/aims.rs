//! The target `aims` of `cargo fuzz`: what it does is in `src/targets/aims.rs`.
#![no_main]

miche_fuzz::target!(miche_fuzz::targets::aims::run);
