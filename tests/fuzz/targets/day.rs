//! The target `day` of `cargo fuzz`: what it does is in `src/targets/day.rs`.
#![no_main]

miche_fuzz::target!(miche_fuzz::targets::day::run);
