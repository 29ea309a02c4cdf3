//! The columns of the file, and what goes into each.

macro_rules! columns {
    ($($(#[$doc:meta])* $variant:ident $name:literal $meaning:literal,)*) => {
        /// A column of the file.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum Column { $($(#[$doc])* $variant,)* }
        impl Column {
            /// Every column, in the order in which an export writes them.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];
            /// Its name in the first row.
            pub fn name(self) -> &'static str { match self { $(Self::$variant => $name,)* } }
            /// What goes into it, in words.
            pub fn meaning(self) -> &'static str { match self { $(Self::$variant => $meaning,)* } }
        }
    };
}

columns! {
    /// The household's name.
    Household "household" "The household’s name. Every row needs it.",
    /// Its zone.
    Zone "zone" "Its time zone, such as Europe/London. Left empty: your practice’s.",
    /// Its children.
    Children "children" "none, visiting or living.",
    /// The trainers' note on it.
    HouseholdNote "household_note" "A note that only trainers read.",
    /// The dog's name.
    Dog "dog" "The dog’s name. A row without one is about the household alone.",
    /// Its breed.
    Breed "breed" "Its breed or kind.",
    /// When it was born.
    Born "born" "A day as year-month-day: 2023-05-01.",
    /// How exactly that is known.
    BirthPrecision "birth_precision" "exact, month or estimated. Left empty: exact.",
    /// Its sex.
    Sex "sex" "female or male.",
    /// Whether it is neutered.
    Neutered "neutered" "yes or no.",
    /// Since when it lives in its home.
    HomeSince "home_since" "Since when it lives there: 2024-02-10.",
    /// Where it stands.
    Phase "phase" "settling_in, active, maintaining, graduated or paused. Left empty: settling_in.",
    /// What it will weigh.
    ExpectedAdultKg "expected_adult_kg" "What it is expected to weigh when grown, in kg.",
    /// What it eats.
    MainFood "main_food" "Its main food.",
    /// The energy of that.
    MainFoodKcalPerG "main_food_kcal_per_g" "The energy of it, in kcal a gram.",
    /// Its allergies.
    Allergies "allergies" "Its allergies.",
    /// Its medicines.
    Medicines "medicines" "Its medicines.",
    /// The owner's goal.
    Goal "goal" "The owner’s goal, in their words.",
    /// The day of a weighing.
    WeighedOn "weighed_on" "The day of a weighing: 2026-03-12.",
    /// What it weighed then.
    Kg "kg" "What the dog weighed that day, in kg.",
}

impl Column {
    /// The column that somebody means who heads one like this.
    pub fn called(heading: &str) -> Option<Self> {
        let heading = heading.trim().to_lowercase().replace([' ', '-'], "_");
        Self::ALL.iter().copied().find(|column| column.name() == heading)
    }

    /// Whether it is about the household, so that no dog need be named.
    pub fn is_of_household(self) -> bool {
        matches!(self, Self::Household | Self::Zone | Self::Children | Self::HouseholdNote)
    }
}
