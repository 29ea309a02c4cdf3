//! Lessons that are booked and held, packages of them, and "still good".

use time::OffsetDateTime;

use super::Player;
use crate::actions::appointments::{AppointmentInput, book_lesson};
use crate::actions::check_in::{CheckInInput, check_in};
use crate::actions::keep_lesson::{LessonInput, keep_lesson};
use crate::actions::packages::add_package;
use crate::demo::content::{DaysAgo, Lesson, On, PRACTICE};
use crate::domain::vocabulary::StillWell;
use crate::ids::AppointmentId;
use crate::store::appointment::Booking;
use crate::store::lesson_package::NewPackage;

impl Player {
    pub(super) async fn book(
        &self,
        lesson: &Lesson,
        id: AppointmentId,
        at: OffsetDateTime,
    ) -> anyhow::Result<()> {
        let calendar = &self.stage().calendar;
        let (hour, minute) = lesson.at;
        let starts_at = match lesson.on {
            On::Held(days_ago, ..) => calendar.at(days_ago, hour, minute)?,
            On::Ahead(days) => calendar.ahead(days, hour, minute)?,
        };
        let booking = Booking {
            trainer: self.trainer.membership,
            starts_at,
            zone: PRACTICE.zone.to_owned(),
            on: calendar.date_at(starts_at)?,
            minutes: lesson.minutes,
            place: lesson.place.to_owned(),
        };
        let (tx, moment) = (self.stage().tx(&self.trainer).await?, self.scene.moment(at));
        let input = AppointmentInput { id, dog: self.id, booking, anyway: false };
        Ok(book_lesson(tx, &self.trainer, &input, &moment).await?)
    }

    pub(super) async fn hold(
        &self,
        lesson: &Lesson,
        id: AppointmentId,
        at: OffsetDateTime,
    ) -> anyhow::Result<()> {
        let On::Held(_, summary, private) = lesson.on else { return Ok(()) };
        let held_on = self.stage().calendar.date_at(at)?;
        let (tx, moment) = (self.stage().tx(&self.trainer).await?, self.scene.moment(at));
        let input = LessonInput {
            id: moment.id(),
            dog: self.id,
            held_on,
            summary: summary.to_owned(),
            private_note: private.to_owned(),
            baseline: None,
            next: Vec::new(),
            appointment: Some(id),
        };
        Ok(keep_lesson(tx, &self.trainer, input, held_on, &moment).await?)
    }

    pub(super) async fn buy(
        &self,
        bought: i16,
        from: DaysAgo,
        note: &str,
        at: OffsetDateTime,
    ) -> anyhow::Result<()> {
        let from = self.stage().calendar.date(from);
        let (tx, moment) = (self.stage().tx(&self.trainer).await?, self.scene.moment(at));
        let new = NewPackage { id: moment.id(), dog: self.id, bought, from, note };
        Ok(add_package(tx, &self.trainer, &new, &moment).await?)
    }

    pub(super) async fn still_good(&self, key: &str, at: OffsetDateTime) -> anyhow::Result<()> {
        let owner = self.stage().actor(key)?.clone();
        let on = self.stage().calendar.date_at(at)?;
        let (tx, moment) = (self.stage().tx(&owner).await?, self.scene.moment(at));
        let input =
            CheckInInput { id: moment.id(), dog: self.id, answer: StillWell::StillGood, on, words: "" };
        Ok(check_in(tx, &owner, &input, &moment).await?)
    }
}
