//! The target `larder` of `cargo fuzz`: what it does is in `src/targets/larder.rs`.
#![no_main]

miche_fuzz::target!(miche_fuzz::targets::larder::run);
