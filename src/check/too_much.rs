//! `too-much`: more parts or options than one recipe can have.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation; its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "too-much",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "a recipe with more than 10 000 parts, or with more than 100 options in its choices",
    why: "Every option is checked in turn, so each makes the work longer, and nobody could still choose among so many. A \
        recipe of that size was made by a program, or is several recipes: part them, and bring them in with `use`.",
    bad: "recipe Rolls\nchoose salt: a1 or a2 or a3 or a4 or a5 or a6 or a7 or a8 or a9 or a10 or a11 or a12 or a13 or a14 or \
        a15 or a16 or a17 or a18 or a19 or a20 or a21 or a22 or a23 or a24 or a25 or a26 or a27 or a28 or a29 or a30 or a31 \
        or a32 or a33 or a34 or a35 or a36 or a37 or a38 or a39 or a40 or a41 or a42 or a43 or a44 or a45 or a46 or a47 or \
        a48 or a49 or a50 or a51 or a52 or a53 or a54 or a55 or a56 or a57 or a58 or a59 or a60 or a61 or a62 or a63 or a64 \
        or a65 or a66 or a67 or a68 or a69 or a70 or a71 or a72 or a73 or a74 or a75 or a76 or a77 or a78 or a79 or a80 or \
        a81 or a82 or a83 or a84 or a85 or a86 or a87 or a88 or a89 or a90 or a91 or a92 or a93 or a94 or a95 or a96 or a97 \
        or a98 or a99 or a100 or a101\nflour .... 500 g\n",
    good: r#"recipe Rolls
choose size: small or large
flour .... 500 g
salt .... 8 g [small]
salt .... 9 g [large]

weigh: hands 1 min
    Weigh {flour} and {salt}.
"#,
    sources: &[],
    run: Run::Elsewhere,
};
