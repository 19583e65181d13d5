//! Which requests are answered, and under which rules a browser may use the answer.
//!
//! Any page in the world can make a browser send requests to this machine. So a request must name this server as its host
//! (a name that was made to point here does not), must not come from another page, and may only read.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use hyper::header::{HOST, HeaderMap, HeaderName, HeaderValue, ORIGIN};
use hyper::{Method, StatusCode};
use sha2::{Digest, Sha256};

/// The script of the cards, the only one that a card may run.
const CARD_SCRIPT: &str = include_str!("../../../out/html/card.js");

/// The policy of the page itself: its own style and script, its own frames, and nothing from elsewhere.
pub(super) const PAGE_POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; \
     connect-src 'self'; frame-src 'self'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// The policy of a text with its lines: a style, and nothing that runs.
pub(super) const SOURCE_POLICY: &str = "default-src 'none'; style-src 'self'; font-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'self'";

/// The policy of what is only data.
pub(super) const DATA_POLICY: &str =
    "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox";

/// The policy of a card or a plan: the styles that stand in it, and the one script of the cards.
pub(super) fn sheet_policy(html: &str) -> String {
    let hash = |text: &str| format!("'sha256-{}'", STANDARD.encode(Sha256::digest(text)));
    let styles = html.split("<style>").skip(1).filter_map(|rest| rest.split("</style>").next());
    let styles: Vec<String> = styles.map(hash).collect();
    format!(
        "default-src 'none'; style-src {}; script-src {}; font-src data:; base-uri 'none'; form-action 'none'; \
         frame-ancestors 'self'",
        if styles.is_empty() { "'none'".to_owned() } else { styles.join(" ") },
        hash(CARD_SCRIPT)
    )
}

/// Whether a request may be answered; if not, with what it is turned away.
pub(super) fn allows(method: &Method, headers: &HeaderMap, port: u16) -> Result<(), StatusCode> {
    let hosts = [format!("127.0.0.1:{port}"), format!("localhost:{port}")];
    let mut named = headers.get_all(HOST).iter();
    let host = named.next().and_then(|host| host.to_str().ok());
    if named.next().is_some() || !host.is_some_and(|host| hosts.iter().any(|known| known.eq_ignore_ascii_case(host))) {
        return Err(StatusCode::MISDIRECTED_REQUEST);
    }
    let from_here = |origin: &HeaderValue| {
        origin.to_str().ok().and_then(|origin| origin.strip_prefix("http://")).is_some_and(|from| Some(from) == host)
    };
    if !headers.get_all(ORIGIN).iter().all(from_here) {
        return Err(StatusCode::FORBIDDEN);
    }
    // Browsers say so when another page wants something, also where they send no origin.
    let site = HeaderName::from_static("sec-fetch-site");
    if !headers.get_all(site).iter().all(|site| site == "same-origin" || site == "none") {
        return Err(StatusCode::FORBIDDEN);
    }
    if method != Method::GET && method != Method::HEAD {
        return Err(StatusCode::METHOD_NOT_ALLOWED);
    }
    Ok(())
}

/// What every answer carries besides its policy.
pub(super) const HEADERS: [(&str, &str); 6] = [
    ("cache-control", "no-store"),
    ("x-content-type-options", "nosniff"),
    ("referrer-policy", "no-referrer"),
    ("cross-origin-opener-policy", "same-origin"),
    ("cross-origin-resource-policy", "same-origin"),
    ("permissions-policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()"),
];

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(method: Method, headers: &[(&'static str, &str)]) -> Result<(), StatusCode> {
        let mut map = HeaderMap::new();
        for (name, value) in headers {
            map.append(HeaderName::from_static(name), HeaderValue::from_str(value).expect("a header"));
        }
        allows(&method, &map, 8000)
    }

    #[test]
    fn only_this_server_is_meant() {
        assert_eq!(asked(Method::GET, &[("host", "127.0.0.1:8000")]), Ok(()));
        assert_eq!(asked(Method::HEAD, &[("host", "LocalHost:8000")]), Ok(()));
        for host in ["127.0.0.1", "127.0.0.1:80", "skerrow.example:8000", "127.0.0.1:8000.skerrow.example", ""] {
            assert_eq!(asked(Method::GET, &[("host", host)]), Err(StatusCode::MISDIRECTED_REQUEST), "{host}");
        }
        assert_eq!(asked(Method::GET, &[]), Err(StatusCode::MISDIRECTED_REQUEST));
        let two = [("host", "127.0.0.1:8000"), ("host", "skerrow.example")];
        assert_eq!(asked(Method::GET, &two), Err(StatusCode::MISDIRECTED_REQUEST));
    }

    #[test]
    fn only_its_own_page_gets_answers() {
        let here = ("host", "127.0.0.1:8000");
        assert_eq!(asked(Method::GET, &[here, ("origin", "http://127.0.0.1:8000")]), Ok(()));
        for origin in ["null", "http://skerrow.example", "http://localhost:8000", "https://127.0.0.1:8000", ""] {
            assert_eq!(asked(Method::GET, &[here, ("origin", origin)]), Err(StatusCode::FORBIDDEN), "{origin}");
        }
        for site in ["cross-site", "same-site", "anything"] {
            assert_eq!(asked(Method::GET, &[here, ("sec-fetch-site", site)]), Err(StatusCode::FORBIDDEN), "{site}");
        }
        assert_eq!(asked(Method::GET, &[here, ("sec-fetch-site", "none")]), Ok(()));
        assert_eq!(asked(Method::POST, &[here]), Err(StatusCode::METHOD_NOT_ALLOWED));
    }

    #[test]
    fn a_policy_names_the_styles_that_are_there() {
        let policy = sheet_policy("<style>a{}</style><script>alert(1)</script>");
        assert_eq!(policy.matches("'sha256-").count(), 2, "{policy}");
        assert!(!policy.contains(&STANDARD.encode(Sha256::digest("alert(1)"))), "{policy}");
    }
}
