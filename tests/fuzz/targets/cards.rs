//! The target `cards` of `cargo fuzz`: what it does is in `src/targets/cards.rs`.
#![no_main]

miche_fuzz::target!(miche_fuzz::targets::cards::run);
