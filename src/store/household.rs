//! Households and who belongs to them.

use time::OffsetDateTime;

use crate::domain::vocabulary::{Children, Word};
use crate::ids::{HouseholdId, MembershipId};
use crate::store::word::word_or_none;
use crate::store::{Result, Tx};

/// A household.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Household {
    /// Its id.
    pub id: HouseholdId,
    /// What it is called.
    pub name: String,
    /// Its IANA time zone.
    pub zone: String,
    /// A private note of the trainers.
    pub note: String,
    /// Children in it.
    pub children: Option<Children>,
}

/// A household in the list of all.
#[derive(Debug)]
pub struct HouseholdRow {
    /// Its id.
    pub id: HouseholdId,
    /// What it is called.
    pub name: String,
    /// Its owners' names, joined by commas.
    pub owners: String,
    /// Its dogs' names, joined by commas.
    pub dogs: String,
}

/// Adds a household.
pub async fn add(tx: &mut Tx, household: &Household, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into household (practice_id, id, name, zone, note, created_at, children)
         values ($1, $2, $3, $4, $5, $6, $7)",
        practice.0,
        household.id.0,
        household.name,
        household.zone,
        household.note,
        now,
        household.children.map(Word::stored)
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Changes a household's name, zone, note and children.
pub async fn edit(tx: &mut Tx, household: &Household) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update household set name = $3, zone = $4, note = $5, children = $6 where practice_id = $1 and id = $2",
        practice.0,
        household.id.0,
        household.name,
        household.zone,
        household.note,
        household.children.map(Word::stored)
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// A household of this practice.
pub async fn find(tx: &mut Tx, id: HouseholdId) -> Result<Option<Household>> {
    let practice = tx.practice();
    let row = sqlx::query!(
        "select name, zone, note, children from household where practice_id = $1 and id = $2",
        practice.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await?;
    row.map(|row| {
        let children = word_or_none(row.children.as_deref())?;
        Ok(Household { id, name: row.name, zone: row.zone, note: row.note, children })
    })
    .transpose()
}

/// All households, by name; `search` narrows by household, owner or dog.
pub async fn list(tx: &mut Tx, search: &str) -> Result<Vec<HouseholdRow>> {
    let practice = tx.practice();
    let search = literal(search);
    sqlx::query_as!(
        HouseholdRow,
        r#"select h.id, h.name,
             coalesce((select string_agg(m.name, ', ' order by m.name) from household_member hm
               join membership m on m.practice_id = hm.practice_id and m.id = hm.membership_id and m.removed_at is null
               where hm.practice_id = h.practice_id and hm.household_id = h.id), '') as "owners!",
             coalesce((select string_agg(d.name, ', ' order by d.name) from dog d
               where d.practice_id = h.practice_id and d.household_id = h.id), '') as "dogs!"
           from household h
           where h.practice_id = $1
             and ($2 = '' or h.name ilike '%' || $2 || '%'
               or exists (select 1 from dog d where d.practice_id = h.practice_id and d.household_id = h.id and d.name ilike '%' || $2 || '%')
               or exists (select 1 from household_member hm
                    join membership m on m.practice_id = hm.practice_id and m.id = hm.membership_id
                    where hm.practice_id = h.practice_id and hm.household_id = h.id and m.removed_at is null and m.name ilike '%' || $2 || '%'))
           order by h.name, h.id
           limit 500"#,
        practice.0,
        search
    )
    .fetch_all(tx.conn())
    .await
}

/// What somebody typed, without the wildcards of a pattern.
fn literal(search: &str) -> String {
    search.replace('\\', "\\\\").replace('%', "\\%").replace('_', "\\_")
}

/// Makes somebody an owner in a household.
pub async fn add_member(
    tx: &mut Tx,
    household: HouseholdId,
    member: MembershipId,
    now: OffsetDateTime,
) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into household_member (practice_id, household_id, membership_id, added_at) values ($1, $2, $3, $4)",
        practice.0,
        household.0,
        member.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Takes somebody out of a household.
pub async fn remove_member(tx: &mut Tx, household: HouseholdId, member: MembershipId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "delete from household_member where practice_id = $1 and household_id = $2 and membership_id = $3",
        practice.0,
        household.0,
        member.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Whether this member is an owner in this household.
pub async fn has_member(tx: &mut Tx, household: HouseholdId, member: MembershipId) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select exists (select 1 from household_member
             where practice_id = $1 and household_id = $2 and membership_id = $3) as "found!""#,
        practice.0,
        household.0,
        member.0
    )
    .fetch_one(tx.conn())
    .await
}

#[cfg(test)]
mod tests {
    use super::literal;

    #[test]
    fn what_is_typed_is_never_a_pattern() {
        assert_eq!(literal(r"50%_\"), r"50\%\_\\");
        assert_eq!(literal("Okafor"), "Okafor");
    }
}
