//! Paths of files as URIs and back (RFC 8089).

use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use std::path::{Path, PathBuf};

/// Bytes that stand in a path as they are: RFC 3986's `pchar`, and what parts it.
const IN_A_URI: &AsciiSet = &NON_ALPHANUMERIC
    .remove(b'/')
    .remove(b'-')
    .remove(b'.')
    .remove(b'_')
    .remove(b'~')
    .remove(b'!')
    .remove(b'$')
    .remove(b'&')
    .remove(b'\'')
    .remove(b'(')
    .remove(b')')
    .remove(b'*')
    .remove(b'+')
    .remove(b',')
    .remove(b';')
    .remove(b'=')
    .remove(b':')
    .remove(b'@');

/// The path of a `file:` URI; `None` for any other kind.
pub(super) fn path(uri: &str) -> Option<PathBuf> {
    let rest = uri.strip_prefix("file:")?;
    let rest = match rest.strip_prefix("//") {
        // A host, if one is named, is this one.
        Some(with_host) => with_host.get(with_host.find('/')?..)?,
        None => rest,
    };
    let rest = rest.split(['?', '#']).next().unwrap_or(rest);
    let decoded = decode(rest)?;
    // `/c:/bread` is a path with a drive.
    let bytes = decoded.as_bytes();
    let drive = bytes.get(2) == Some(&b':') && bytes.get(1).is_some_and(u8::is_ascii_alphabetic);
    Some(PathBuf::from(if drive { decoded.get(1..)?.to_owned() } else { decoded }))
}

/// The URI of an absolute path.
pub(super) fn of(path: &Path) -> String {
    let text = path.to_string_lossy();
    let text = if cfg!(windows) { text.replace('\\', "/") } else { text.into_owned() };
    let root = if text.starts_with('/') { "" } else { "/" };
    format!("file://{root}{}", utf8_percent_encode(&text, IN_A_URI))
}

fn decode(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let digit = |byte: Option<u8>| char::from(byte?).to_digit(16);
            let value = digit(rest.next())? * 16 + digit(rest.next())?;
            bytes.push(u8::try_from(value).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_come_back() {
        for text in ["/home/baker/Skerrow harbour/crème 100 %.miche", "/a#b?c.miche", "/plain.miche"] {
            assert_eq!(path(&of(Path::new(text))), Some(PathBuf::from(text)));
        }
        assert_eq!(of(Path::new("/a b/½.miche")), "file:///a%20b/%C2%BD.miche");
    }

    #[test]
    fn other_uris_have_no_path() {
        assert_eq!(path("untitled:Untitled-1"), None);
        assert_eq!(path("file:///broken%2"), None);
        assert_eq!(path("file:///c%3A/bread.miche"), Some(PathBuf::from("c:/bread.miche")));
    }
}
