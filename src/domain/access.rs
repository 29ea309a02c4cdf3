//! Who may do what: one pure question, one answer.
//!
//! What one may not see does not exist (404); an act that one may not do on what one sees is refused (403).

use super::vocabulary::Role;
use crate::ids::{HouseholdId, MembershipId, PracticeId};

/// Who asks: one person's place in one practice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Actor {
    /// The practice they act in.
    pub practice: PracticeId,
    /// Their place in it.
    pub membership: MembershipId,
    /// Their role in it.
    pub role: Role,
    /// The households they belong to.
    pub households: Vec<HouseholdId>,
}

/// What an act is done on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Resource {
    /// The practice it belongs to.
    pub practice: PracticeId,
    /// The household it belongs to; `None` for what belongs to the practice as a whole.
    pub household: Option<HouseholdId>,
}

/// The answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Access {
    /// Yes.
    Allow,
    /// It does not exist for them: 404.
    Hide,
    /// They see it but may not do this: 403.
    Refuse,
}

impl Access {
    /// Whether the answer is yes.
    pub fn allowed(self) -> bool {
        self == Self::Allow
    }
}

/// Who may do an action, by the widest circle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Circle {
    /// The lead trainer; trainers see it, owners do not.
    Lead,
    /// The lead trainer; nobody else sees it.
    LeadAlone,
    /// Trainers; owners do not see it.
    Trainers,
    /// Trainers; the household sees what it is done on.
    TrainersInView,
    /// Trainers, and owners for their own household.
    Household,
    /// Owners for their own household; trainers see what it is done on.
    OwnersAlone,
}

macro_rules! actions {
    ($($(#[$doc:meta])* $name:ident $circle:ident $words:literal,)*) => {
        /// Everything that people do.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum Action { $($(#[$doc])* $name,)* }
        impl Action {
            /// Every action.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];
            /// The action in words.
            pub fn words(self) -> &'static str { match self { $(Self::$name => $words,)* } }
            fn circle(self) -> Circle { match self { $(Self::$name => Circle::$circle,)* } }
        }
    };
}

actions! {
    /// Name, zone, policy, duty trainer.
    RunPractice Lead "run the practice",
    /// Invite a trainer, or take one out of the team.
    KeepTeam Lead "keep the team",
    /// Read who did what.
    SeeAudit LeadAlone "see the audit trail",
    /// Take households, dogs and weights in from a file, or out into one.
    ImportRecords Lead "import and export records",
    /// See who works here.
    SeeTeam Trainers "see the team",
    /// See every dog in order of need.
    SeeCaseload Trainers "see the caseload",
    /// Read and write exercises.
    KeepLibrary Trainers "keep the library",
    /// Put an exercise away for everybody, or offer it again.
    ArchiveExercise Lead "archive an exercise",
    /// Take a household in.
    AddHousehold Trainers "add a household",
    /// Change a household's facts.
    KeepHousehold TrainersInView "keep a household",
    /// Add a dog, change its facts or its phase.
    KeepDog TrainersInView "keep a dog",
    /// Ask a household about a dog before the first lesson, and say what one makes of it.
    KeepIntake TrainersInView "ask, and answer an intake",
    /// Book, change and call off lessons, and keep packages of them.
    KeepLessons TrainersInView "book lessons",
    /// Write and publish a plan.
    KeepPlan TrainersInView "keep a plan",
    /// Say what was done about a finding.
    AnswerFlag TrainersInView "answer a flag",
    /// Say that one has looked at what a household told.
    LookAt TrainersInView "look at what was told",
    /// Decide about a step.
    Decide TrainersInView "decide about a step",
    /// Write reports about a dog, issue them, and share them by a link.
    WriteReports TrainersInView "write reports",
    /// Take an owner out of a household.
    RemoveOwner TrainersInView "remove an owner",
    /// Log a sitting.
    LogPractice Household "log practice",
    /// Record something that happened.
    RecordEncounter Household "record an encounter",
    /// Change or remove what was logged; [`may_revise`](super::revision::may_revise) says which of it.
    Revise Household "change what was logged",
    /// Read and write in the household's conversation.
    Message Household "read and write messages",
    /// Tell how near the goal feels, and what goes on in the dog's life.
    TellLife Household "tell of the dog's life",
    /// Invite another person of the household.
    InviteOwner Household "invite an owner",
    /// Tell about a dog before the first lesson, and agree to what lessons need.
    TellIntake OwnersAlone "fill in an intake",
    /// Make and end links for people who walk or mind a dog.
    KeepHelperLinks OwnersAlone "keep helper links",
    /// Say whether it still goes well, once a plan is only kept up, and ask to come back.
    CheckIn OwnersAlone "say how it holds up",
    /// Say "I am not coping".
    SayNotCoping OwnersAlone "say they are not coping",
}

/// Whether this actor may do this on that.
pub fn decide(actor: &Actor, action: Action, resource: &Resource) -> Access {
    if actor.practice != resource.practice {
        return Access::Hide;
    }
    let own = resource.household.is_some_and(|household| actor.households.contains(&household));
    match (actor.role, action.circle()) {
        (Role::Lead, Circle::OwnersAlone) | (Role::Trainer, Circle::OwnersAlone | Circle::Lead) => {
            Access::Refuse
        }
        (Role::Trainer, Circle::LeadAlone) => Access::Hide,
        (Role::Lead | Role::Trainer, _) => Access::Allow,
        (Role::Owner, Circle::Household | Circle::OwnersAlone) if own => Access::Allow,
        (Role::Owner, Circle::TrainersInView) if own => Access::Refuse,
        (Role::Owner, _) => Access::Hide,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use uuid::Uuid;

    fn id<T: From<Uuid>>(number: u128) -> T {
        T::from(Uuid::from_u128(number))
    }

    fn actor(role: Role) -> Actor {
        let households = if role == Role::Owner { vec![id(7)] } else { vec![] };
        Actor { practice: id(1), membership: id(9), role, households }
    }

    fn on(practice: u128, household: Option<u128>) -> Resource {
        Resource { practice: id(practice), household: household.map(id) }
    }

    fn word(access: Access) -> &'static str {
        match access {
            Access::Allow => "allow",
            Access::Hide => "404",
            Access::Refuse => "403",
        }
    }

    /// What stands above the answers, for whoever reviews them.
    const LEGEND: &str = "\
Who may do what. Changed by changing src/domain/access.rs, and reviewed here.

answers    allow      it is done
           404        it does not exist for them
           403        they see what it is done on, but may not do it

belongs    practice   to the practice as a whole: its team, its library, its audit trail
           own        to a household that the owner belongs to; to trainers it is like any other
           other      to another household of the same practice
           elsewhere  to another practice, whatever it is
";

    fn row(action: &str, role: &str, answers: [&str; 4]) -> String {
        let [practice, own, other, elsewhere] = answers;
        format!("{action:<26}{role:<10}{practice:<10}{own:<10}{other:<10}{elsewhere}\n")
    }

    fn matrix() -> String {
        let mut text = format!("{LEGEND}\n{}", row("what", "by", ["practice", "own", "other", "elsewhere"]));
        for &action in Action::ALL {
            text.push('\n');
            for role in [Role::Lead, Role::Trainer, Role::Owner] {
                let places = [on(1, None), on(1, Some(7)), on(1, Some(8)), on(2, Some(7))];
                let answers = places.map(|resource| word(decide(&actor(role), action, &resource)));
                text.push_str(&row(action.words(), &format!("{role:?}").to_lowercase(), answers));
            }
        }
        text
    }

    #[test]
    fn the_matrix_is_the_reviewed_one() {
        let found = matrix();
        let reviewed = include_str!("access_matrix.txt");
        assert!(found == reviewed, "access_matrix.txt should read:\n{found}");
    }

    #[test]
    fn nobody_reaches_another_practice() {
        for &action in Action::ALL {
            for role in [Role::Lead, Role::Trainer, Role::Owner] {
                for resource in [on(2, None), on(2, Some(7)), on(2, Some(8))] {
                    assert_eq!(decide(&actor(role), action, &resource), Access::Hide);
                }
            }
        }
    }

    #[test]
    fn an_owner_may_do_nothing_outside_the_household() {
        for &action in Action::ALL {
            for resource in [on(1, None), on(1, Some(8))] {
                assert_eq!(decide(&actor(Role::Owner), action, &resource), Access::Hide);
            }
        }
    }
}
