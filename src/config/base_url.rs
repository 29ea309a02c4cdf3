//! The address people use for the service.

use std::{fmt, net::IpAddr, str::FromStr};

/// The address every absolute link starts with: a scheme, a host and perhaps a port, without a final slash.
///
/// Plain http is accepted for this machine alone, because browsers refuse service workers and secure cookies
/// to it anywhere else.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BaseUrl {
    https: bool,
    host: String,
    port: Option<u16>,
}

/// Why an address cannot be a [`BaseUrl`].
#[derive(Debug, PartialEq, Eq, thiserror::Error)]
pub enum InvalidBaseUrl {
    /// It is not a scheme, a host and perhaps a port.
    #[error("write it as https://dogs.example.org, without a path")]
    Shape,
    /// It is plain http, and reachable from other machines.
    #[error(
        "plain http works on this machine only (browsers refuse secure cookies and offline pages elsewhere): use https://"
    )]
    PlainHttp,
}

impl BaseUrl {
    /// Plain http on this machine.
    pub fn localhost(port: u16) -> Self {
        Self { https: false, host: "localhost".into(), port: (port != 80).then_some(port) }
    }

    /// Whether browsers reach the service over TLS, so that cookies can be marked secure.
    pub fn is_https(&self) -> bool {
        self.https
    }

    /// Whether the host is this machine.
    pub fn is_loopback(&self) -> bool {
        is_loopback(&self.host)
    }

    /// The host in lower case; an IPv6 address keeps its brackets.
    pub fn host(&self) -> &str {
        &self.host
    }

    /// The port browsers connect to.
    pub fn port(&self) -> u16 {
        self.port.unwrap_or(if self.https { 443 } else { 80 })
    }
}

impl fmt::Display for BaseUrl {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let scheme = if self.https { "https" } else { "http" };
        write!(f, "{scheme}://{}", self.host)?;
        self.port.map_or(Ok(()), |port| write!(f, ":{port}"))
    }
}

impl FromStr for BaseUrl {
    type Err = InvalidBaseUrl;

    fn from_str(text: &str) -> Result<Self, InvalidBaseUrl> {
        let text = text.trim().to_ascii_lowercase();
        let (scheme, rest) = text.split_once("://").ok_or(InvalidBaseUrl::Shape)?;
        let https = match scheme {
            "https" => true,
            "http" => false,
            _ => return Err(InvalidBaseUrl::Shape),
        };
        let (host, port) = split_port(rest.strip_suffix('/').unwrap_or(rest))?;
        if !is_host(host) {
            return Err(InvalidBaseUrl::Shape);
        }
        if !https && !is_loopback(host) {
            return Err(InvalidBaseUrl::PlainHttp);
        }
        // An origin never spells out its scheme's own port, so neither do we.
        let port = port.filter(|port| *port != if https { 443 } else { 80 });
        Ok(Self { https, host: host.into(), port })
    }
}

fn split_port(authority: &str) -> Result<(&str, Option<u16>), InvalidBaseUrl> {
    let colon = authority.rfind(':').filter(|at| !authority[*at..].contains(']'));
    let Some(at) = colon else { return Ok((authority, None)) };
    let port: u16 = authority[at + 1..].parse().map_err(|_| InvalidBaseUrl::Shape)?;
    if port == 0 {
        return Err(InvalidBaseUrl::Shape);
    }
    Ok((&authority[..at], Some(port)))
}

fn is_host(host: &str) -> bool {
    if let Some(address) = bracketed(host) {
        return matches!(address.parse(), Ok(IpAddr::V6(_)));
    }
    !host.is_empty()
        && host.split('.').all(|label| !label.is_empty() && !label.starts_with('-') && !label.ends_with('-'))
        && host.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'.' || byte == b'-')
}

fn is_loopback(host: &str) -> bool {
    let address = bracketed(host).unwrap_or(host).parse::<IpAddr>();
    host == "localhost" || address.is_ok_and(|address| address.is_loopback())
}

fn bracketed(host: &str) -> Option<&str> {
    host.strip_prefix('[')?.strip_suffix(']')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keeps_scheme_host_and_port_only() {
        for (given, kept) in [
            ("https://Dogs.Example.org/", "https://dogs.example.org"),
            ("https://dogs.example.org:443", "https://dogs.example.org"),
            ("https://dogs.example.org:8443", "https://dogs.example.org:8443"),
            ("http://localhost:8080", "http://localhost:8080"),
            ("http://127.0.0.1", "http://127.0.0.1"),
            ("http://[::1]:8080/", "http://[::1]:8080"),
        ] {
            assert_eq!(given.parse::<BaseUrl>().unwrap().to_string(), kept);
        }
    }

    #[test]
    fn refuses_what_is_not_an_origin() {
        for given in [
            "",
            "dogs.example.org",
            "ftp://dogs.example.org",
            "https://",
            "https://dogs.example.org/app",
            "https://dogs.example.org?x",
            "https://me@dogs.example.org",
            "https://dogs.example.org:0",
            "https://dogs.example.org:99999",
            "https://dogs..example",
            "https://[dogs]",
            "https://-dogs.example",
        ] {
            assert_eq!(given.parse::<BaseUrl>(), Err(InvalidBaseUrl::Shape), "{given}");
        }
    }

    #[test]
    fn plain_http_is_for_this_machine() {
        for given in ["http://dogs.example.org", "http://192.168.1.20:8080", "http://localhost.example.org"] {
            assert_eq!(given.parse::<BaseUrl>(), Err(InvalidBaseUrl::PlainHttp), "{given}");
        }
    }

    #[test]
    fn localhost_names_the_port_that_was_bound() {
        assert_eq!(BaseUrl::localhost(8080).to_string(), "http://localhost:8080");
        assert_eq!(BaseUrl::localhost(80).to_string(), "http://localhost");
        assert_eq!(BaseUrl::localhost(80).port(), 80);
        assert!(BaseUrl::localhost(80).is_loopback());
    }
}
