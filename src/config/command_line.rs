//! The options as typed, each also readable from the environment.

use std::{
    net::{Ipv4Addr, SocketAddr},
    path::PathBuf,
};

use clap::{Args, Parser, Subcommand};

use super::BaseUrl;

/// Homework between lessons, for reward-based dog trainers and the people they teach.
#[derive(Debug, Parser)]
#[command(name = "settlebrook", version, propagate_version = true)]
pub(super) struct CommandLine {
    #[command(subcommand)]
    pub command: Command,
    /// Which log lines to write, for example "info" or "debug,sqlx=warn"
    #[arg(long, global = true, env = "SETTLEBROOK_LOG", default_value = "info,sqlx=warn,memory_serve=warn")]
    pub log: String,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Serve your practice
    Serve {
        #[command(flatten)]
        web: WebOptions,
        #[command(flatten)]
        folder: FolderOptions,
        #[command(flatten)]
        outside: OutsideOptions,
        #[command(flatten)]
        fetch: FetchOption,
    },
    /// Serve an invented practice to look around in, on this machine only
    Demo {
        #[command(flatten)]
        web: WebOptions,
        #[command(flatten)]
        folder: FolderOptions,
        /// Delete the invented practice and make it afresh
        #[arg(long)]
        reset: bool,
    },
    /// Bring the database's schema up to date, and stop
    Migrate {
        #[command(flatten)]
        folder: FolderOptions,
        #[command(flatten)]
        outside: OutsideOptions,
        #[command(flatten)]
        fetch: FetchOption,
    },
    /// Print a one-time link for setting up a practice
    NewPractice {
        #[command(flatten)]
        web: WebOptions,
        #[command(flatten)]
        folder: FolderOptions,
        #[command(flatten)]
        outside: OutsideOptions,
        #[command(flatten)]
        fetch: FetchOption,
    },
}

#[derive(Debug, Args)]
pub(super) struct WebOptions {
    /// Address and port to listen on
    #[arg(long, env = "SETTLEBROOK_LISTEN", default_value = "127.0.0.1:8080", value_parser = parse_listen)]
    pub listen: SocketAddr,
    /// Address people use, for example https://dogs.example.org [default: http://localhost:<port>]
    #[arg(long, env = "SETTLEBROOK_BASE_URL")]
    pub base_url: Option<BaseUrl>,
}

#[derive(Debug, Args)]
pub(super) struct FolderOptions {
    /// Folder for the private database [default: /var/lib/settlebrook for root, else your data folder]
    #[arg(long, env = "SETTLEBROOK_DATA_DIR")]
    pub data_dir: Option<PathBuf>,
    /// Folder with PostgreSQL's programs (postgres, initdb, pg_ctl) [default: looked for]
    #[arg(long, env = "SETTLEBROOK_PG_BIN")]
    pub pg_bin: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(super) struct OutsideOptions {
    /// A PostgreSQL to use instead of the private one, as the service's own role (better set in the
    /// environment, where other accounts of this machine do not see it)
    #[arg(long, env = "DATABASE_URL", hide_env_values = true)]
    pub database_url: Option<String>,
    /// The same PostgreSQL as the role that owns the schema, for migrations
    #[arg(long, env = "SETTLEBROOK_OWNER_URL", hide_env_values = true)]
    pub owner_url: Option<String>,
}

#[derive(Debug, Args)]
pub(super) struct FetchOption {
    /// Fetch PostgreSQL's programs into the data folder where none are installed
    #[arg(long, env = "SETTLEBROOK_FETCH_POSTGRES")]
    pub fetch_postgres: bool,
}

/// An address and a port; `localhost` is spelt out because it is what people type.
fn parse_listen(text: &str) -> Result<SocketAddr, String> {
    let localhost = text.strip_prefix("localhost:").and_then(|port| port.parse().ok());
    match localhost {
        Some(port) => Ok((Ipv4Addr::LOCALHOST, port).into()),
        None => text.parse().map_err(|_| "write it as 127.0.0.1:8080 or [::1]:8080".into()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn options_do_not_contradict_each_other() {
        CommandLine::command().debug_assert();
    }

    #[test]
    fn listens_on_an_address_with_a_port() {
        assert_eq!(parse_listen("localhost:99").unwrap().to_string(), "127.0.0.1:99");
        assert_eq!(parse_listen("[::]:80").unwrap().to_string(), "[::]:80");
        for wrong in ["8080", ":8080", "localhost", "localhost:99999", "dogs.example:80"] {
            assert!(parse_listen(wrong).is_err(), "{wrong}");
        }
    }
}
