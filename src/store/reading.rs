//! Reads as values. A noun says what there is to read and how; a page puts together what it shows and asks for all of it in one
//! statement, however many nouns it is made of.
//!
//! Each reading is a select of its own, checked at compile time like every other; put together, each becomes one column that holds
//! its rows as JSON, in the order of the select. (`json_agg` over an ordered subquery keeps its order: PostgreSQL manual, 9.21.)

use serde::de::DeserializeOwned;
use sqlx::postgres::PgArguments;
use sqlx::{Arguments, AssertSqlSafe, Encode, Postgres, Row, Type};

use crate::store::{Result, Tx};

type Bind = Box<dyn FnOnce(&mut PgArguments) -> std::result::Result<(), sqlx::error::BoxDynError> + Send>;
type Answer<A> = Box<dyn FnOnce(&mut dyn Iterator<Item = String>) -> Result<A> + Send>;

/// One select, whose `$1` is the practice, and the values of its other parameters.
pub(in crate::store) struct Part {
    sql: &'static str,
    binds: Vec<Bind>,
}

/// Something to be read, and what becomes of it.
#[must_use = "nothing is read until it is asked for"]
pub struct Reading<A> {
    parts: Vec<Part>,
    answer: Answer<A>,
}

impl Part {
    /// A select without its values.
    pub(in crate::store) fn new(sql: &'static str) -> Self {
        Self { sql, binds: Vec::new() }
    }

    /// Gives the next parameter its value.
    pub(in crate::store) fn bind<T>(mut self, value: T) -> Self
    where
        T: for<'q> Encode<'q, Postgres> + Type<Postgres> + Send + 'static,
    {
        self.binds.push(Box::new(move |arguments| arguments.add(value)));
        self
    }

    /// Its rows.
    pub(in crate::store) fn rows<R: DeserializeOwned + 'static>(self) -> Reading<Vec<R>> {
        let answer = |columns: &mut dyn Iterator<Item = String>| {
            let rows = columns.next().ok_or(sqlx::Error::RowNotFound)?;
            serde_json::from_str(&rows).map_err(|wrong| sqlx::Error::Decode(Box::new(wrong)))
        };
        Reading { parts: vec![self], answer: Box::new(answer) }
    }
}

impl<A: 'static> Reading<A> {
    /// The same, with something made of it.
    pub fn then<B>(self, make: impl FnOnce(A) -> Result<B> + Send + 'static) -> Reading<B> {
        let answer = self.answer;
        Reading { parts: self.parts, answer: Box::new(move |columns| make(answer(columns)?)) }
    }

    /// Reads it, in one statement; what asks for nothing sends none.
    pub async fn read(self, tx: &mut Tx) -> Result<A> {
        if self.parts.is_empty() {
            return (self.answer)(&mut std::iter::empty());
        }
        let practice = tx.practice();
        let mut arguments = PgArguments::default();
        arguments.add(practice.0).map_err(sqlx::Error::Encode)?;
        let mut columns = Vec::new();
        for part in self.parts {
            let rows = numbered_after(part.sql, arguments.len() - 1);
            columns.push(format!("(select coalesce(json_agg(r), '[]')::text from ({rows}) r)"));
            for bind in part.binds {
                bind(&mut arguments).map_err(sqlx::Error::Encode)?;
            }
        }
        // every part is a text of ours: see `Part::new`
        let asked = AssertSqlSafe(format!("select {}", columns.join(", ")));
        let row = sqlx::query_with(asked, arguments).fetch_one(tx.conn()).await?;
        let told: Vec<String> = (0..columns.len()).map(|at| row.try_get(at)).collect::<Result<_>>()?;
        (self.answer)(&mut told.into_iter())
    }
}

impl<R: 'static> Reading<Vec<R>> {
    /// Each row as what it stands for.
    pub fn each<T: TryFrom<R, Error = sqlx::Error>>(self) -> Reading<Vec<T>> {
        self.then(|rows| rows.into_iter().map(T::try_from).collect())
    }

    /// The first row, where there is one.
    pub fn first(self) -> Reading<Option<R>> {
        self.then(|rows| Ok(rows.into_iter().next()))
    }

    /// The row that there must be.
    pub fn only(self) -> Reading<R> {
        self.then(|rows| rows.into_iter().next().ok_or(sqlx::Error::RowNotFound))
    }
}

/// As many readings as there are, in one.
pub fn all<A: 'static>(readings: Vec<Reading<A>>) -> Reading<Vec<A>> {
    let (mut parts, mut answers) = (Vec::new(), Vec::new());
    for reading in readings {
        parts.extend(reading.parts);
        answers.push(reading.answer);
    }
    let answer =
        |columns: &mut dyn Iterator<Item = String>| answers.into_iter().map(|one| one(columns)).collect();
    Reading { parts, answer: Box::new(answer) }
}

/// The select with each parameter but the first counted so much further on.
fn numbered_after(sql: &str, by: usize) -> String {
    let mut pieces = sql.split('$');
    let mut numbered = pieces.next().unwrap_or_default().to_owned();
    for piece in pieces {
        let digits = piece.find(|c: char| !c.is_ascii_digit()).unwrap_or(piece.len());
        match piece[..digits].parse::<usize>() {
            Ok(number) if number > 1 => numbered.push_str(&format!("${}{}", number + by, &piece[digits..])),
            _ => numbered.push_str(&format!("${piece}")),
        }
    }
    numbered
}

/// What can be put together into one reading: readings in a tuple.
pub trait Together {
    /// What each gives.
    type Answers;

    /// One reading of all of them.
    fn together(self) -> Reading<Self::Answers>;
}

macro_rules! together {
    ($($one:ident)+) => {
        impl<$($one: 'static),+> Together for ($(Reading<$one>),+) {
            type Answers = ($($one),+);

            #[expect(non_snake_case, reason = "each reading is called as what it gives")]
            fn together(self) -> Reading<Self::Answers> {
                let ($($one),+) = self;
                let mut parts = Vec::new();
                $(
                    parts.extend($one.parts);
                    let $one = $one.answer;
                )+
                Reading { parts, answer: Box::new(move |columns| Ok(($($one(columns)?),+))) }
            }
        }
    };
}

together!(A B);
together!(A B C);
together!(A B C D);
together!(A B C D E);
together!(A B C D E F);
together!(A B C D E F G);
together!(A B C D E F G H);

/// A reading of rows of a type: the select, whose `$1` is the practice, and the values of its other parameters. The compiler checks
/// it as `query_as!` does; a column whose name says more ("times!") is renamed to that where its row is read.
macro_rules! reading {
    ($row:ty, $sql:literal $(+ $more:literal)* $(, $bind:expr)* $(,)?) => {{
        let _checked = |practice: uuid::Uuid| {
            let _ = sqlx::query_as!($row, $sql $(+ $more)*, practice $(, $bind)*);
        };
        $crate::store::reading::Part::new(concat!($sql $(, $more)*)) $(.bind($bind))* .rows::<$row>()
    }};
}
pub(in crate::store) use reading;

time::serde::format_description!(pub(in crate::store) day, Date, "[year]-[month]-[day]");

#[cfg(test)]
mod tests {
    use super::numbered_after;

    #[test]
    fn the_practice_stays_the_first_parameter_and_the_others_move_on() {
        assert_eq!(
            numbered_after("a = $1 and b = $2 and c = $13::date", 4),
            "a = $1 and b = $6 and c = $17::date"
        );
        assert_eq!(numbered_after("nothing", 4), "nothing");
        assert_eq!(numbered_after("a ~ 'x$' and b = $2", 4), "a ~ 'x$' and b = $6");
    }
}
