//! The closed sets of words that the product speaks: one enum a set, its stored text and its label.
//!
//! Stored as text with a CHECK in the database; [`Word::stored`] and [`Word::from_stored`] are the only bridge.

/// A word of a closed set.
pub trait Word: Sized + Copy + PartialEq + 'static {
    /// Every word of the set, in the order in which people choose from it.
    const ALL: &'static [Self];
    /// The text kept in the database and sent by forms.
    fn stored(self) -> &'static str;
    /// What trainers read.
    fn label(self) -> &'static str;
    /// The word with this stored text, if there is one.
    fn from_stored(text: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|word| word.stored() == text)
    }
}

macro_rules! words {
    ($($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $stored:literal $label:literal,)* })*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum $name { $($(#[$vdoc])* $variant,)* }
        impl Word for $name {
            const ALL: &'static [Self] = &[$(Self::$variant,)*];
            fn stored(self) -> &'static str { match self { $(Self::$variant => $stored,)* } }
            fn label(self) -> &'static str { match self { $(Self::$variant => $label,)* } }
        }
        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result { f.write_str(self.label()) }
        }
    )*};
}

words! {
    /// What a member may do in a practice.
    Role {
        /// Runs the practice, and does everything a trainer does.
        Lead = "lead" "Lead trainer",
        /// Keeps dogs, plans and answers.
        Trainer = "trainer" "Trainer",
        /// Practises with their own household's dogs.
        Owner = "owner" "Owner",
    }
    /// How somebody signed in.
    Way {
        /// With an address and a password.
        Password = "password" "Password",
        /// With a passkey.
        Passkey = "passkey" "Passkey",
        /// By a link from their trainer or household.
        Link = "link" "Link",
    }
    /// Where a dog stands in its work with the practice.
    Phase {
        /// First weeks.
        SettlingIn = "settling_in" "Settling in",
        /// Working through a plan.
        Active = "active" "Active",
        /// Keeping what was learnt; silence is fine.
        Maintaining = "maintaining" "Maintaining",
        /// Done.
        Graduated = "graduated" "Graduated",
        /// Resting for a while; silence is fine.
        Paused = "paused" "Paused",
    }
    /// A day of the week.
    DayOfWeek {
        /// Monday.
        Monday = "monday" "Monday",
        /// Tuesday.
        Tuesday = "tuesday" "Tuesday",
        /// Wednesday.
        Wednesday = "wednesday" "Wednesday",
        /// Thursday.
        Thursday = "thursday" "Thursday",
        /// Friday.
        Friday = "friday" "Friday",
        /// Saturday.
        Saturday = "saturday" "Saturday",
        /// Sunday.
        Sunday = "sunday" "Sunday",
    }
    /// A dog's sex.
    Sex {
        /// Female.
        Female = "female" "Female",
        /// Male.
        Male = "male" "Male",
    }
    /// How exact a birth date is.
    BirthPrecision {
        /// Known to the day.
        Exact = "exact" "Exact",
        /// Known to the month.
        Month = "month" "To the month",
        /// An estimate.
        Estimated = "estimated" "Estimated",
    }
    /// How much a dog moves in an ordinary day.
    Activity {
        /// Less than an hour, on lead.
        Low = "low" "Under an hour a day",
        /// One to three hours.
        Moderate = "moderate" "One to three hours a day",
        /// One to three hours at speed, or more.
        High = "high" "Three hours or more, or hard work",
    }
    /// A dog's coat.
    Coat {
        /// Short.
        Short = "short" "Short",
        /// Medium.
        Medium = "medium" "Medium",
        /// Long.
        Long = "long" "Long",
        /// Double or very thick.
        Thick = "thick" "Thick or double",
    }
    /// Whether a vet has been part of this case.
    VetStatus {
        /// Nobody has been asked.
        None = "none" "Not asked",
        /// The owner has been asked to see one.
        Asked = "asked" "Asked to see a vet",
        /// A vet has seen the dog.
        Seen = "seen" "Seen by a vet",
        /// A vet has cleared the dog for this work.
        Cleared = "cleared" "Cleared for this work",
    }
    /// Children in a dog's life at home.
    Children {
        /// None.
        None = "none" "No children",
        /// They come to visit.
        Visiting = "visiting" "Children visit",
        /// They live there.
        Living = "living" "Children live here",
    }
    /// How warm it felt, where nothing was measured.
    Felt {
        /// Below about 10 °C.
        Cold = "cold" "Cold",
        /// About 10 to 20 °C.
        Mild = "mild" "Mild",
        /// About 20 to 27 °C.
        Warm = "warm" "Warm",
        /// Above that.
        Hot = "hot" "Hot",
    }
    /// What a plan item or exercise is.
    ItemKind {
        /// Something to teach, step by step.
        Exercise = "exercise" "Exercise",
        /// Something that holds all the time and keeps everyone safe.
        StandingArrangement = "standing_arrangement" "Standing arrangement",
        /// Something the owner learns without the dog.
        OwnerSkill = "owner_skill" "Owner's skill without the dog",
    }
    /// How much an exercise winds a dog up.
    Energy {
        /// Still or slow.
        Calm = "calm" "Calm",
        /// Walking.
        Moving = "moving" "Moving",
        /// Exciting: chase, running, play.
        Arousing = "arousing" "Arousing",
    }
    /// How sure to be before moving on.
    SkillClass {
        /// A mistake costs nothing.
        Ordinary = "ordinary" "Ordinary",
        /// A mistake can hurt: recall, doors, drop, muzzle.
        Safety = "safety" "Safety",
    }
    /// What a sitting of an exercise yields.
    Outcome {
        /// Attempts and how many met the criterion.
        Count = "count" "Counted attempts",
        /// Nearest comfortable distance, metres.
        Distance = "distance" "Nearest comfortable distance",
        /// Longest calm time, minutes.
        Duration = "duration" "Longest calm time",
        /// Minutes to recover.
        Recovery = "recovery" "Minutes to recover",
        /// Events in a week.
        Events = "events" "Events in a week",
    }
    /// What joins dog and handler.
    Line {
        /// Nothing.
        None = "none" "No line",
        /// A lead of up to about two metres.
        ShortLead = "short_lead" "Short lead",
        /// A line of five metres or more, held.
        LongLine = "long_line" "Long line",
        /// A long line that trails on the ground.
        TrailingLine = "trailing_line" "Trailing line",
        /// A lead that runs out from a reel in a handle.
        Retractable = "retractable" "Retractable lead",
    }
    /// Where the line is clipped: the attachment point.
    Clip {
        /// Back ring of a harness.
        HarnessBack = "harness_back" "Back of the harness",
        /// Front ring of a harness.
        HarnessFront = "harness_front" "Front of the harness",
        /// A flat collar.
        Collar = "collar" "Collar",
        /// A head collar.
        HeadCollar = "head_collar" "Head collar",
        /// A slip lead or choke chain.
        SlipOrChoke = "slip_or_choke" "Slip lead or choke chain",
        /// A prong collar.
        Prong = "prong" "Prong collar",
    }
    /// How a fact about equipment is known.
    Basis {
        /// The person said so.
        Stated = "stated" "Stated",
        /// "As planned" was tapped; assumed from the plan.
        AsPlanned = "as_planned" "Assumed as planned",
    }
    /// How busy a place was this time.
    Busy {
        /// Quieter than usual.
        Quiet = "quiet" "Quiet",
        /// As usual.
        Usual = "usual" "As usual",
        /// Busier than usual.
        Busy = "busy" "Busy",
    }
    /// How a dog took its food.
    TookFood {
        /// Softly.
        Gently = "gently" "Gently",
        /// Snatching.
        Snatched = "snatched" "Snatched",
        /// Not at all.
        Refused = "refused" "Would not take it",
    }
    /// How a dog looked.
    Looked {
        /// Loose and easy.
        Loose = "loose" "Loose and easy",
        /// Wound up.
        WoundUp = "wound_up" "Wound up",
        /// Worried.
        Worried = "worried" "Worried",
        /// Frozen.
        Frozen = "frozen" "Frozen",
    }
    /// How long until the dog was itself again.
    Recovery {
        /// Within five minutes.
        Within5 = "within_5" "Within 5 minutes",
        /// Within fifteen minutes.
        Within15 = "within_15" "Within 15 minutes",
        /// More than fifteen minutes.
        Longer = "longer" "Longer",
        /// Not yet when logged.
        NotYet = "not_yet" "Not yet",
    }
    /// How a sitting was brought down: the way of the cool-down.
    Finish {
        /// A slow sniffing walk.
        SniffWalk = "sniff_walk" "Sniffing walk",
        /// Something to chew or lick.
        Chew = "chew" "Chew or lick",
        /// Settling on a mat or at the handler's feet.
        Settle = "settle" "Settling",
        /// Nothing: straight home or into the car.
        StraightHome = "straight_home" "Straight home",
    }
    /// How a log was captured.
    Capture {
        /// "As planned", one tap.
        OneTap = "one_tap" "One tap",
        /// The form.
        Form = "form" "Form",
        /// The trainer's own, from a lesson.
        Lesson = "lesson" "Lesson",
        /// Counted try by try while it was practised.
        CountedLive = "counted_live" "Counted live",
        /// One tap by somebody who holds a helper's link.
        Helper = "helper" "By a helper",
    }
    /// Why there is no practice on a day.
    DayOffReason {
        /// The dog.
        Dog = "dog" "The dog",
        /// Whoever practises.
        Me = "me" "Me",
        /// The weather.
        Weather = "weather" "The weather",
        /// No time.
        Time = "time" "No time",
    }
    /// What goes on in a dog's life beside its practice.
    LifeKind {
        /// A medicine, from the first dose to the last.
        Medicine = "medicine" "Medicine",
        /// A bitch in season.
        Season = "season" "In season",
        /// Neutering.
        Neutering = "neutering" "Neutering",
        /// Another home.
        Move = "move" "Moved house",
        /// Fireworks or thunder.
        Fireworks = "fireworks" "Fireworks",
        /// Ill or hurt.
        Illness = "illness" "Ill or hurt",
        /// Away from home.
        Holiday = "holiday" "Away",
        /// Anything else.
        Other = "other" "Something else",
    }
    /// What a timeline can be narrowed to.
    TimelineKind {
        /// Sittings.
        Sittings = "sittings" "Sittings",
        /// What happened in life.
        Encounters = "encounters" "Encounters",
        /// What rules raised, and its answers.
        Welfare = "welfare" "Welfare",
        /// Decisions about steps.
        Decisions = "decisions" "Decisions",
        /// Published plans.
        Plans = "plans" "Plans",
        /// Lessons.
        Lessons = "lessons" "Lessons",
        /// Messages.
        Messages = "messages" "Messages",
        /// Weighings.
        Weights = "weights" "Weights",
        /// What went on beside the practice.
        Life = "life" "Life",
        /// How near the goal felt.
        Goal = "goal" "Goal",
        /// Phases.
        Phases = "phases" "Phases",
    }
    /// What a photo shows the fit of.
    Gear {
        /// A harness.
        Harness = "harness" "Harness",
        /// A muzzle.
        Muzzle = "muzzle" "Muzzle",
    }
    /// Whether gear still sits as it was approved.
    FitAnswer {
        /// It does.
        LikeThis = "like_this" "Like this",
        /// It does not.
        Changed = "changed" "Differently",
    }
    /// Where a booked lesson stands.
    AppointmentState {
        /// It is to come, or its note is not written yet.
        Planned = "planned" "Planned",
        /// It was held: its note is kept.
        Held = "held" "Held",
        /// It did not take place.
        CalledOff = "called_off" "Called off",
    }
    /// Who called a lesson off.
    CalledOffBy {
        /// The household.
        Household = "household" "The household",
        /// The practice.
        Practice = "practice" "Us",
    }
    /// What a household says to "still going well?".
    StillWell {
        /// It does.
        StillGood = "still_good" "Still good",
        /// It does not.
        Slipping = "slipping" "Slipping",
    }
    /// How a standing arrangement was kept.
    Held {
        /// Always.
        Yes = "yes" "Yes",
        /// Mostly.
        Mostly = "mostly" "Mostly",
        /// No.
        No = "no" "No",
    }
    /// What happened in an encounter.
    EncounterKind {
        /// Met a trigger.
        Reaction = "reaction" "Met something that sets the dog off",
        /// Ran off and could not be called back.
        Bolted = "bolted" "Bolted",
        /// Teeth touched a person or animal.
        Bite = "bite" "Bit",
        /// Growled or snapped without touching.
        GrowlOrSnap = "growl_or_snap" "Growled or snapped",
        /// Kept food, a thing or a place from others.
        Guarded = "guarded" "Guarded food, a thing or a place",
        /// A harness slipped, a clip or line failed.
        EquipmentFailed = "equipment_failed" "Equipment slipped or failed",
        /// The owner is not coping.
        NotCoping = "not_coping" "Not coping",
        /// Anything else.
        Other = "other" "Something else",
    }
    /// Whom a bite, growl or snap was directed at.
    Towards {
        /// An adult outside the household.
        Stranger = "stranger" "Someone we do not know well",
        /// A child.
        Child = "child" "A child",
        /// The person handling the dog, or another adult at home.
        Handler = "handler" "The handler or someone at home",
        /// Another dog.
        Dog = "dog" "Another dog",
        /// Another animal.
        Animal = "animal" "Another animal",
    }
    /// Signs of illness or pain that an owner can see.
    HealthSign {
        /// Collapse.
        Collapse = "collapse" "Collapsed",
        /// A fit.
        Fit = "fit" "Had a fit",
        /// Pale or blue gums.
        PaleGums = "pale_gums" "Pale or blue gums",
        /// Laboured breathing.
        LabouredBreathing = "laboured_breathing" "Struggling to breathe",
        /// Swollen belly, retching with nothing coming.
        Bloat = "bloat" "Swollen belly or retching with nothing coming up",
        /// Suspected heat illness.
        Heat = "heat" "Overheated: heavy panting that will not slow",
        /// Suspected poison.
        Poison = "poison" "May have eaten something poisonous",
        /// Strains and passes little or nothing.
        Straining = "straining" "Strains and passes little or nothing",
        /// Lame or stiff.
        Lame = "lame" "Lame or stiff",
        /// Repeated vomiting or diarrhoea.
        Vomiting = "vomiting" "Vomiting or upset stomach more than once",
        /// Flinches or guards when touched.
        TouchSore = "touch_sore" "Flinches when touched",
        /// Reluctant: stairs, sit, down, jump.
        Reluctant = "reluctant" "Reluctant to sit, lie down, jump or use stairs",
        /// Off food.
        OffFood = "off_food" "Off their food",
        /// Sleeps badly.
        Restless = "restless" "Sleeping badly or restless at night",
        /// House training lapses.
        Toileting = "toileting" "Accidents indoors",
        /// Something else.
        OtherSign = "other_sign" "Something else unlike them",
    }
    /// How bad a finding is.
    Severity {
        /// Worth knowing.
        Notice = "notice" "Notice",
        /// Change something.
        Caution = "caution" "Caution",
        /// Stop this now.
        Stop = "stop" "Stop",
    }
    /// Where a flag stands.
    FlagState {
        /// Nobody has answered it.
        Open = "open" "Open",
        /// A trainer said what was done.
        Answered = "answered" "Answered",
        /// An edit of the log took its ground away.
        Withdrawn = "withdrawn" "Withdrawn",
    }
    /// Why a flag was looked at again.
    LookedAgain {
        /// What it is about, or something that it looked back on, was changed.
        Changed = "changed" "what was logged was changed",
        /// What it is about, or something that it looked back on, was removed.
        Removed = "removed" "something logged was removed",
        /// The rule has another meaning now.
        RuleChanged = "rule_changed" "the rule changed",
    }
    /// What a trainer decides about a line.
    Choice {
        /// A harder step.
        MoveOn = "move_on" "Move on",
        /// The same again.
        Repeat = "repeat" "Repeat",
        /// An easier step.
        MakeEasier = "make_easier" "Make it easier",
    }
    /// Why a trainer decided so.
    DecisionReason {
        /// The counts say so.
        Counts = "counts" "The counts say so",
        /// Seen in a lesson.
        SeenInLesson = "seen_in_lesson" "I saw it in a lesson",
        /// The dog's well-being.
        Welfare = "welfare" "The dog's well-being",
        /// The owner's time and confidence.
        OwnersCapacity = "owners_capacity" "The owner's time and confidence",
        /// Another reason, in the note.
        Other = "other" "Another reason",
    }
    /// What a report is for.
    ReportKind {
        /// How the work went over a time.
        Progress = "progress" "Progress report",
        /// A dog is referred to a vet or a behaviourist.
        Referral = "referral" "Referral letter",
        /// Another trainer takes a dog over.
        HandOver = "hand_over" "Hand-over to another trainer",
    }
}
