//! Who may use the page: the browser that was given its address, and nobody else.
//!
//! The page listens on the loopback address alone, but every page that a browser shows may send requests there, and a name
//! of a foreign server may be pointed to it. So a request has to know the token in the address (128 random bits), name this
//! server as its host, and come from its own pages where it says where it comes from.

use axum::http::{HeaderMap, Method, header};

/// What a request has to show.
#[derive(Clone, Debug)]
pub struct Guard {
    token: String,
    port: u16,
}

/// What is said to whoever is refused: no more than he knows.
pub const REFUSED: &str = "This page is for the browser to which zoneprobe gave its whole address. Start `zoneprobe open` and use what it prints.\n";

impl Guard {
    /// For a server on this port of the loopback address, with a token of its own.
    ///
    /// # Errors
    /// The system has no random numbers.
    pub fn new(port: u16) -> Result<Self, getrandom::Error> {
        let mut bytes = [0_u8; 16];
        getrandom::fill(&mut bytes)?;
        Ok(Self { token: bytes.iter().map(|byte| format!("{byte:02x}")).collect(), port })
    }

    /// The way from the server's root to the page, with a stroke at both ends.
    pub fn root(&self) -> String {
        format!("/{}/", self.token)
    }

    /// The whole address.
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}{}", self.port, self.root())
    }

    /// Whether a request may be heard.
    pub fn lets_in(&self, method: &Method, path: &str, headers: &HeaderMap) -> bool {
        let one = |name: &header::HeaderName| {
            let mut all = headers.get_all(name).iter();
            match (all.next(), all.next()) {
                (None, _) => Some(None),
                (Some(value), None) => value.to_str().ok().map(Some),
                _ => None,
            }
        };
        let (Some(Some(host)), Some(origin)) = (one(&header::HOST), one(&header::ORIGIN)) else {
            return false;
        };
        let own = format!("127.0.0.1:{}", self.port);
        let reads = matches!(*method, Method::GET | Method::HEAD);
        let from_here = match origin {
            Some(origin) => origin.strip_prefix("http://") == Some(&own),
            // What changes something comes from a page of ours, and browsers say so.
            None => reads,
        };
        // Browsers that tell more of where a request comes from are taken at their word.
        let site = headers.get("sec-fetch-site").map(header::HeaderValue::as_bytes);
        let same_site = site.is_none_or(|site| [b"same-origin".as_slice(), b"none"].contains(&site));
        let knows = path.split('/').nth(1) == Some(&self.token);
        knows && host == own && from_here && same_site
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lets_in(method: &str, path: &str, headers: &[(&'static str, &'static str)]) -> bool {
        let guard = Guard { token: "0123456789abcdef".into(), port: 4711 };
        let mut all = HeaderMap::new();
        for (name, value) in headers {
            all.append(*name, header::HeaderValue::from_static(value));
        }
        guard.lets_in(&method.parse().unwrap(), path, &all)
    }

    const HERE: (&str, &str) = ("host", "127.0.0.1:4711");
    const OWN: (&str, &str) = ("origin", "http://127.0.0.1:4711");

    #[test]
    fn its_own_pages_are_heard() {
        let path = "/0123456789abcdef/q/1";
        assert!(lets_in("GET", path, &[HERE]));
        assert!(lets_in("GET", path, &[HERE, ("sec-fetch-site", "none")]));
        assert!(lets_in("POST", path, &[HERE, OWN, ("sec-fetch-site", "same-origin")]));
    }

    #[test]
    fn without_the_token_nothing_is_heard() {
        for path in [
            "/",
            "/q/1",
            "//0123456789abcdef/",
            "/0123456789abcde/",
            "/0123456789abcdef0/",
            "/0123456789ABCDEF/",
        ] {
            assert!(!lets_in("GET", path, &[HERE]), "{path}");
        }
    }

    #[test]
    fn a_foreign_host_is_not_heard_though_it_leads_here() {
        let path = "/0123456789abcdef/";
        assert!(!lets_in("GET", path, &[]));
        for host in [
            "evil.example:4711",
            "127.0.0.1",
            "127.0.0.1:4712",
            "127.0.0.1:4711.evil.example",
            "localhost:4711",
        ] {
            assert!(!lets_in("GET", path, &[("host", host)]), "{host}");
        }
        assert!(!lets_in("GET", path, &[HERE, ("host", "evil.example")]), "two of them");
    }

    #[test]
    fn a_foreign_page_is_not_heard_though_it_knows_the_token() {
        let path = "/0123456789abcdef/q/1/stop";
        for origin in [
            "http://evil.example",
            "null",
            "https://127.0.0.1:4711",
            "http://127.0.0.1:4712",
            "http://127.0.0.1",
        ] {
            for method in ["GET", "POST"] {
                assert!(!lets_in(method, path, &[HERE, ("origin", origin)]), "{method} {origin}");
            }
        }
        for site in ["cross-site", "same-site", ""] {
            assert!(!lets_in("GET", path, &[HERE, ("sec-fetch-site", site)]), "{site}");
        }
        assert!(!lets_in("POST", path, &[HERE]), "what changes something says where it comes from");
        assert!(!lets_in("POST", path, &[HERE, OWN, OWN]), "twice");
    }

    #[test]
    fn tokens_differ() {
        let token = || Guard::new(1).unwrap().token;
        let (one, other) = (token(), token());
        assert!(one.len() == 32 && one != other, "{one} {other}");
    }
}
