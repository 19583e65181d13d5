#!/usr/bin/env bash
# A Debian package of a built program: debian.sh PROGRAM PACKAGE.deb
# Completions and manual pages are made by the program that goes into it.
set -euo pipefail
program=$(realpath "$1")
package=$(realpath "$2")
cd "$(dirname "$0")/../.."
version=$(sed -n 's/^version = "\(.*\)"/\1/p' Cargo.toml | head -1)
architecture=$(dpkg --print-architecture)
stage=$(mktemp -d)
trap 'rm -rf "$stage"' EXIT
install -D -m 755 "$program" "$stage/usr/bin/miche"
"$program" setup shell bash > "$stage/bash"
install -D -m 644 "$stage/bash" "$stage/usr/share/bash-completion/completions/miche"
"$program" setup shell zsh > "$stage/zsh"
install -D -m 644 "$stage/zsh" "$stage/usr/share/zsh/vendor-completions/_miche"
"$program" setup shell fish > "$stage/fish"
install -D -m 644 "$stage/fish" "$stage/usr/share/fish/vendor_completions.d/miche.fish"
rm "$stage/bash" "$stage/zsh" "$stage/fish"
"$program" setup man --to "$stage/usr/share/man/man1"
gzip -9n "$stage"/usr/share/man/man1/*.1
documents=$stage/usr/share/doc/miche
mkdir -p "$documents"
gzip -9nc grammar/LANGUAGE.md > "$documents/LANGUAGE.md.gz"
cat > "$documents/copyright" <<END
Format: https://www.debian.org/doc/packaging-manuals/copyright-format/1.0/
Upstream-Name: miche

Files: *
Copyright: The miche contributors
License: Expat or Apache-2.0
 On Debian systems the full text of the Apache License, version 2.0, is in
 /usr/share/common-licenses/Apache-2.0. The other one follows.
 .
$(sed -e 's/^$/./' -e 's/^/ /' LICENSE-MIT)
END
mkdir "$stage/DEBIAN"
size=$(du -sk "$stage" | cut -f1)
cat > "$stage/DEBIAN/control" <<END
Package: miche
Version: $version
Architecture: $architecture
Maintainer: The miche contributors <miche@localhost>
Installed-Size: $size
Depends: libc6
Recommends: git
Section: utils
Priority: optional
Description: compiler for formulas that bakers write
 Text in; problems found before flour is wetted; batch cards, plan,
 buying list, label and formula diff out.
END
chmod -R go+rX,u+w "$stage"
dpkg-deb --root-owner-group --build "$stage" "$package" >/dev/null
