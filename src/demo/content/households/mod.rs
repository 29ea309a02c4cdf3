//! The twenty households, a file each, in the order they are loaded.

mod abernethy;
mod aldous;
mod amadi;
mod castellane;
mod dacosta;
mod delacour;
mod fairbrass;
mod hallworth;
mod kirkbride;
mod lazenby;
mod mirza;
mod nakagawa;
mod obuya;
mod ostrander;
mod oyelaran;
mod quartermaine;
mod ravenscroft;
mod szymanska;
mod thackaberry;
mod winterbourne;

use super::types::Household;

/// Everybody.
pub(super) const ALL: &[Household] = &[
    amadi::HOUSEHOLD,
    castellane::HOUSEHOLD,
    oyelaran::HOUSEHOLD,
    fairbrass::HOUSEHOLD,
    lazenby::HOUSEHOLD,
    thackaberry::HOUSEHOLD,
    obuya::HOUSEHOLD,
    hallworth::HOUSEHOLD,
    mirza::HOUSEHOLD,
    szymanska::HOUSEHOLD,
    winterbourne::HOUSEHOLD,
    dacosta::HOUSEHOLD,
    ravenscroft::HOUSEHOLD,
    quartermaine::HOUSEHOLD,
    aldous::HOUSEHOLD,
    nakagawa::HOUSEHOLD,
    abernethy::HOUSEHOLD,
    delacour::HOUSEHOLD,
    ostrander::HOUSEHOLD,
    kirkbride::HOUSEHOLD,
];
