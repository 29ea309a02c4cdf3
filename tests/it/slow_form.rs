//! A form that trickles in over a weak signal.

use std::io::{Read, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::time::Duration;

use settlebrook::app;

use crate::support::World;

const FORM: &str = "name=Okoro&zone=Europe%2FLondon";

/// The whole service on a port of its own.
fn listen(world: &World) -> SocketAddr {
    let listener = TcpListener::bind("127.0.0.1:0").expect("a port");
    listener.set_nonblocking(true).expect("as tokio wants it");
    let address = listener.local_addr().expect("its address");
    let listener = tokio::net::TcpListener::from_std(listener).expect("listens");
    let router = app::router(world.app.clone());
    tokio::spawn(async move { axum::serve(listener, router).await });
    address
}

/// What the service says up to an empty line.
fn said(stream: &mut TcpStream) -> String {
    let mut said = Vec::new();
    let mut byte = [0];
    while !said.ends_with(b"\r\n\r\n") && stream.read(&mut byte).expect("an answer") > 0 {
        said.extend(byte);
    }
    String::from_utf8(said).expect("text")
}

/// The service asks for the body (100 Continue) when it begins to read it: at that moment nothing else may be begun.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_form_that_trickles_in_holds_no_transaction() {
    let world = World::new().await;
    let lead = world.lead().await;
    let cookie = lead.cookie("settlebrook").expect("signed in").to_owned();
    let mut slow = TcpStream::connect(listen(&world)).expect("connects");
    slow.set_read_timeout(Some(Duration::from_secs(30))).expect("a limit");
    let head = format!(
        "POST /households/new HTTP/1.1\r\nhost: localhost:8080\r\nsec-fetch-site: same-origin\r\n\
         cookie: settlebrook={cookie}\r\ncontent-type: application/x-www-form-urlencoded\r\n\
         content-length: {}\r\nexpect: 100-continue\r\nconnection: close\r\n\r\n",
        FORM.len()
    );
    slow.write_all(head.as_bytes()).expect("sends the head");
    assert!(said(&mut slow).starts_with("HTTP/1.1 100 "));
    let open = "select count(*) from pg_stat_activity where datname = current_database() and state like 'idle in transaction%'";
    assert_eq!(world.database.count(open).await, 0, "nothing waits for the rest of the form");
    slow.write_all(FORM.as_bytes()).expect("sends the form");
    let answer = said(&mut slow);
    assert!(answer.starts_with("HTTP/1.1 303 "), "{answer}");
    assert_eq!(world.database.count("select count(*) from household where name = 'Okoro'").await, 1);
}
