//! Identifiers: one newtype a noun, so that a dog's id cannot be passed where a household's is wanted.
//!
//! Ids made by the server are UUIDs version 7. Ids made on a phone may be any version and are never used
//! for order or time.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};
use uuid::Uuid;

macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident)*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(pub Uuid);

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result { self.0.fmt(f) }
        }
        impl FromStr for $name {
            type Err = uuid::Error;
            fn from_str(text: &str) -> Result<Self, Self::Err> { text.parse().map(Self) }
        }
        impl From<Uuid> for $name {
            fn from(id: Uuid) -> Self { Self(id) }
        }
    )*};
}

ids! {
    /// A practice: the business, the tenant.
    PracticeId
    /// A person's way in, across practices.
    AccountId
    /// One person's place in one practice; every actor is named by it.
    MembershipId
    /// A phone or computer that is signed in.
    SignInId
    /// A passkey of one account.
    PasskeyId
    /// A file that was checked to be imported.
    ImportBatchId
    /// A household of one practice.
    HouseholdId
    /// A dog of one household.
    DogId
    /// A trigger of one dog.
    TriggerId
    /// A reinforcer of one dog.
    ReinforcerId
    /// A place where one dog practises.
    PlaceId
    /// An exercise of a practice's library.
    ExerciseId
    /// One rung of an exercise.
    StepId
    /// A published plan.
    PlanVersionId
    /// A plan kept to start others from.
    PlanTemplateId
    /// One instruction of a plan version.
    PlanItemId
    /// An instruction across plan versions, so that readiness survives publishing.
    LineId
    /// One sitting.
    PracticeLogId
    /// Something that happened in life, outside a sitting.
    EncounterId
    /// One thing to watch, raised by a rule.
    FlagId
    /// One recorded decision on a line.
    DecisionId
    /// One lesson that was held.
    LessonId
    /// How near the goal felt on one day.
    GoalReadingId
    /// Something that goes on in a dog's life.
    LifeEventId
    /// One lesson that was booked.
    AppointmentId
    /// One package of lessons that was bought.
    LessonPackageId
    /// One answer to "still going well?".
    CheckInId
    /// One photo.
    PhotoId
    /// One link for somebody who helps with a dog.
    HelperLinkId
    /// One report about a dog.
    ReportId
    /// One link under which an issued report may be read.
    ReportLinkId
    /// One message of a household's conversation.
    MessageId
    /// A phrase that a trainer keeps for answers.
    PhraseId
    /// A view of the caseload that a trainer keeps under a name.
    CaseloadViewId
    /// A dog's going from one trainer to another.
    HandOverId
    /// One answer of a trainer to an intake.
    TriageId
    /// What somebody agreed to, with their name under it.
    ConsentId
}
