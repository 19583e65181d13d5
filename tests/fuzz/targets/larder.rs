#![no_main]
miche_fuzz::target!(miche_fuzz::targets::larder::run);
