//! A small server of static files for this machine only.
//!
//! It listens on 127.0.0.1, reads one folder, writes nothing and remembers nothing. It can serve
//! the folder from a deep sub-path, as a static host may.

use anyhow::{Context, Result};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

/// How many ports are tried upwards from the one asked for.
const PORTS_TRIED: u16 = 50;

/// Longest request line and header read, in bytes.
const LONGEST_HEAD: u64 = 16 * 1024;

/// What README.md asks every host to send beside the usual; the page states the rest of its policy.
const PROTECTING: &str = "Content-Security-Policy: frame-ancestors 'none'; worker-src 'self'; \
    object-src 'none'; base-uri 'none'\r\nX-Content-Type-Options: nosniff\r\n\
    Referrer-Policy: no-referrer\r\nCross-Origin-Opener-Policy: same-origin\r\n";

/// A running server; it ends with the process.
pub struct Server {
    /// Address of the page, with a slash at the end.
    pub address: String,
}

/// What a request is answered from.
struct Folder {
    files: PathBuf,
    prefix: String,
}

impl Server {
    /// Serves `files` below `prefix` ("/" or "/some/deep/path/") from the first free port at or
    /// above `port`; 0 takes any free one.
    ///
    /// # Errors
    /// When none of the ports tried is free.
    pub fn start(files: &Path, prefix: &str, port: u16) -> Result<Self> {
        let listener = first_free(port)?;
        let port = listener.local_addr()?.port();
        let folder = Arc::new(Folder {
            files: files.into(),
            prefix: prefix.into(),
        });
        std::thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                let folder = Arc::clone(&folder);
                std::thread::spawn(move || answer(stream, &folder));
            }
        });
        Ok(Self {
            address: format!("http://127.0.0.1:{port}{prefix}"),
        })
    }
}

fn first_free(port: u16) -> Result<TcpListener> {
    let last = if port == 0 {
        0
    } else {
        port.saturating_add(PORTS_TRIED)
    };
    (port..=last)
        .find_map(|port| TcpListener::bind((Ipv4Addr::LOCALHOST, port)).ok())
        .with_context(|| format!("no free port from {port} to {last}; name another with --port"))
}

/// Answers one request; a reader that goes away is no fault.
fn answer(mut stream: TcpStream, folder: &Folder) {
    let _ = stream.set_read_timeout(Some(Duration::from_secs(10)));
    let Some((method, target)) = read_head(&stream) else {
        return;
    };
    let (status, kind, body) = folder.reply(&method, &target);
    let head = format!(
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\n\
         Cache-Control: no-cache\r\n{PROTECTING}Connection: close\r\n\r\n",
        body.len()
    );
    let _ = stream.write_all(head.as_bytes());
    if method != "HEAD" {
        let _ = stream.write_all(&body);
    }
}

/// Method and target of the request, once its whole head has been read.
fn read_head(stream: &TcpStream) -> Option<(String, String)> {
    let mut reader = BufReader::new(stream.take(LONGEST_HEAD));
    let mut first = String::new();
    reader.read_line(&mut first).ok()?;
    loop {
        let mut line = String::new();
        if reader.read_line(&mut line).ok()? == 0 || line.trim().is_empty() {
            break;
        }
    }
    let mut words = first.split_whitespace();
    Some((words.next()?.to_string(), words.next()?.to_string()))
}

impl Folder {
    fn reply(&self, method: &str, target: &str) -> (&'static str, &'static str, Vec<u8>) {
        const PLAIN: &str = "text/plain; charset=utf-8";
        if method != "GET" && method != "HEAD" {
            return (
                "405 Method Not Allowed",
                PLAIN,
                b"only GET and HEAD".to_vec(),
            );
        }
        let found = self.file_for(target).and_then(|path| {
            let bytes = std::fs::read(&path).ok()?;
            Some((mime(&path), bytes))
        });
        match found {
            Some((kind, bytes)) => ("200 OK", kind, bytes),
            None => (
                "404 Not Found",
                PLAIN,
                format!("no file at {target}").into_bytes(),
            ),
        }
    }

    /// The file a target names; `None` when it is outside the folder or the prefix.
    fn file_for(&self, target: &str) -> Option<PathBuf> {
        let path = target.split(['?', '#']).next()?;
        let inside = percent_decoded(path.strip_prefix(self.prefix.as_str())?)?;
        let inside = Path::new(&inside);
        if !inside
            .components()
            .all(|part| matches!(part, Component::Normal(_)))
        {
            return None;
        }
        let file = self.files.join(inside);
        Some(if file.is_dir() {
            file.join("index.html")
        } else {
            file
        })
    }
}

/// Undoes `%20` and its like; `None` when what comes out is no text.
fn percent_decoded(path: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.as_bytes();
    while let [first, tail @ ..] = rest {
        let escaped = (*first == b'%').then(|| tail.get(..2)).flatten();
        let value = escaped
            .and_then(|two| std::str::from_utf8(two).ok())
            .and_then(|two| u8::from_str_radix(two, 16).ok());
        bytes.push(value.unwrap_or(*first));
        rest = if value.is_some() {
            tail.get(2..)?
        } else {
            tail
        };
    }
    String::from_utf8(bytes).ok()
}

/// The media type of a file by the end of its name (registered at IANA).
pub fn mime(path: &Path) -> &'static str {
    match path.extension().and_then(|end| end.to_str()).unwrap_or("") {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "wasm" => "application/wasm",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "jpg" | "jpeg" => "image/jpeg",
        "webp" => "image/webp",
        "ico" => "image/x-icon",
        "woff2" => "font/woff2",
        "ttf" => "font/ttf",
        "pdf" => "application/pdf",
        "txt" | "md" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn get(address: &str, target: &str) -> String {
        let host = address
            .trim_start_matches("http://")
            .split('/')
            .next()
            .unwrap();
        let mut stream = TcpStream::connect(host).unwrap();
        write!(stream, "GET {target} HTTP/1.1\r\nHost: {host}\r\n\r\n").unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        answer
    }

    #[test]
    fn serves_below_a_deep_path_and_nothing_outside() {
        let folder = tempfile::tempdir().unwrap();
        let site = folder.path().join("site");
        std::fs::create_dir(&site).unwrap();
        std::fs::write(site.join("index.html"), "the page").unwrap();
        std::fs::write(site.join("a b.css"), "p{}").unwrap();
        std::fs::write(folder.path().join("secret"), "not yours").unwrap();
        let server = Server::start(&site, "/some/deep/path/", 0).unwrap();
        let home = get(&server.address, "/some/deep/path/?x=1");
        assert!(
            home.starts_with("HTTP/1.1 200") && home.ends_with("the page"),
            "{home}"
        );
        assert!(get(&server.address, "/some/deep/path/a%20b.css").contains("text/css"));
        for outside in [
            "/",
            "/some/deep/path/../secret",
            "/some/deep/path/%2e%2e/secret",
        ] {
            assert!(
                get(&server.address, outside).starts_with("HTTP/1.1 404"),
                "{outside}"
            );
        }
    }

    #[test]
    fn what_readme_asks_of_a_host_is_sent() {
        let readme = std::fs::read_to_string(crate::cargo::root().join("README.md")).unwrap();
        for line in PROTECTING.trim_end().split("\r\n") {
            assert!(readme.contains(line), "README.md does not ask for {line}");
        }
        let folder = tempfile::tempdir().unwrap();
        let server = Server::start(folder.path(), "/", 0).unwrap();
        assert!(get(&server.address, "/").contains(PROTECTING));
    }

    #[test]
    fn a_taken_port_is_passed_over() {
        let taken = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).unwrap();
        let port = taken.local_addr().unwrap().port();
        let next = first_free(port).unwrap().local_addr().unwrap().port();
        assert!(next > port);
    }

    #[test]
    fn wasm_has_the_type_that_lets_it_stream() {
        assert_eq!(mime(Path::new("x/app_bg.wasm")), "application/wasm");
        assert_eq!(mime(Path::new("noend")), "application/octet-stream");
    }

    #[test]
    fn odd_percent_signs_stay_as_they_are() {
        assert_eq!(percent_decoded("100%").as_deref(), Some("100%"));
        assert_eq!(percent_decoded("%zz").as_deref(), Some("%zz"));
        assert_eq!(percent_decoded("%ff"), None);
    }
}
