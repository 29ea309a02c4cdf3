//! The database: somebody else's PostgreSQL, or a private one; its roles, its schema, its connections.

mod migrations;
mod pool;
mod private;
mod roles;

use anyhow::Context;
use sqlx::{Connection, PgPool, postgres::PgConnectOptions};

pub use self::{
    pool::{connect_app, connect_owner, refuse_powerful_role},
    private::PrivateCluster,
};
use crate::config::{DatabasePlace, MigrationPlace};

/// A database that runs.
#[derive(Debug)]
pub enum Database {
    /// Ours, stopped by [`Database::stop`].
    Private(PrivateCluster),
    /// Somebody else's.
    Outside(Box<Outside>),
}

/// How to connect to a database that somebody else runs.
#[derive(Debug)]
pub struct Outside {
    /// To serve, when that was asked for.
    app: Option<PgConnectOptions>,
    /// To migrate, when that was allowed.
    owner: Option<PgConnectOptions>,
}

impl Database {
    /// Makes the database run if that is ours to do. Blocks.
    ///
    /// # Errors
    /// As [`PrivateCluster::start`], and a refusal for an address that is none.
    pub fn start(place: &DatabasePlace) -> anyhow::Result<Self> {
        match place {
            DatabasePlace::Private(settings) => PrivateCluster::start(settings).map(Self::Private),
            DatabasePlace::Outside { app, owner } => {
                let app = Some(pool::options(app, "DATABASE_URL")?);
                let owner =
                    owner.as_ref().map(|url| pool::options(url, "SETTLEBROOK_OWNER_URL")).transpose()?;
                Ok(Self::Outside(Box::new(Outside { app, owner })))
            }
        }
    }

    /// As [`Database::start`], for migrating alone.
    ///
    /// # Errors
    /// As [`Database::start`].
    pub fn start_to_migrate(place: &MigrationPlace) -> anyhow::Result<Self> {
        match place {
            MigrationPlace::Private(settings) => PrivateCluster::start(settings).map(Self::Private),
            MigrationPlace::Outside(owner) => {
                let owner = Some(pool::options(owner, "SETTLEBROOK_OWNER_URL")?);
                Ok(Self::Outside(Box::new(Outside { app: None, owner })))
            }
        }
    }

    /// Brings roles (in a private database) and schema up to date. Without a way to connect as the owner, or where
    /// another instance has done it, nothing.
    ///
    /// # Errors
    /// When the database cannot be reached or a migration fails.
    pub async fn migrate(&self) -> anyhow::Result<()> {
        let owner = match self {
            Self::Private(cluster) if cluster.is_joined() => return Ok(()),
            Self::Private(cluster) => {
                roles::create(cluster).await?;
                cluster.options(roles::OWNER, roles::DATABASE)
            }
            Self::Outside(outside) => match &outside.owner {
                Some(owner) => owner.clone(),
                None => return Ok(()),
            },
        };
        let mut owner = connect_owner(owner).await?;
        migrations::run(&mut owner).await?;
        owner.close().await?;
        Ok(())
    }

    /// Migrates, then opens the pool requests are served from.
    ///
    /// # Errors
    /// A refusal when the schema is older than this program, or the role is too powerful; else as
    /// [`Database::migrate`].
    pub async fn open(&self) -> anyhow::Result<PgPool> {
        self.migrate().await?;
        let options = match self {
            Self::Private(cluster) => cluster.options(roles::APP, roles::DATABASE),
            Self::Outside(outside) => {
                outside.app.clone().context("this database was opened for migrating, not for serving")?
            }
        };
        let pool = connect_app(options).await?;
        migrations::refuse_pending(&pool).await?;
        Ok(pool)
    }

    /// Stops a private database; leaves others alone.
    ///
    /// # Errors
    /// When it does not stop.
    pub fn stop(self) -> anyhow::Result<()> {
        match self {
            Self::Private(cluster) => cluster.stop(),
            Self::Outside(_) => Ok(()),
        }
    }
}
