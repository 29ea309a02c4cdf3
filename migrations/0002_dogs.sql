-- Dogs and what a careful history holds. Every fact is stated or null: null means "not stated", never "no".

create table dog (
  practice_id uuid not null,
  id uuid not null,
  household_id uuid not null,
  trainer_id uuid not null,
  name text not null check (length(name) between 1 and 60),
  breed text not null default '' check (length(breed) <= 120),
  birth_date date,
  birth_precision text not null default 'exact' check (birth_precision in ('exact', 'month', 'estimated')),
  sex text check (sex in ('female', 'male')),
  neutered boolean,
  expected_adult_kg double precision check (expected_adult_kg > 0 and expected_adult_kg < 150),
  body_condition smallint check (body_condition between 1 and 9),
  activity text check (activity in ('low', 'moderate', 'high')),
  coat text check (coat in ('short', 'medium', 'long', 'thick')),
  short_nosed boolean,
  heart_or_breathing text not null default '' check (length(heart_or_breathing) <= 1000),
  orthopaedic text not null default '' check (length(orthopaedic) <= 1000),
  other_health text not null default '' check (length(other_health) <= 1000),
  medicines text not null default '' check (length(medicines) <= 1000),
  allergies text not null default '' check (length(allergies) <= 1000),
  main_food text not null default '' check (length(main_food) <= 200),
  main_food_kcal_per_g double precision check (main_food_kcal_per_g > 0 and main_food_kcal_per_g < 10),
  vet_status text not null default 'none' check (vet_status in ('none', 'asked', 'seen', 'cleared')),
  vet_status_on date,
  history text not null default '' check (length(history) <= 4000),
  bite_on_record boolean not null default false,
  muzzle text not null default '' check (length(muzzle) <= 500),
  must_not_meet text not null default '' check (length(must_not_meet) <= 500),
  goal text not null default '' check (length(goal) <= 1000),
  goal_score smallint check (goal_score between 0 and 10),
  tried_before text not null default '' check (length(tried_before) <= 2000),
  phase text not null default 'settling_in' check (phase in ('settling_in', 'active', 'maintaining', 'graduated', 'paused')),
  phase_since timestamptz,
  created_at timestamptz not null,
  primary key (practice_id, id),
  foreign key (practice_id, household_id) references household (practice_id, id),
  foreign key (practice_id, trainer_id) references membership (practice_id, id)
);
create index dog_by_household on dog (practice_id, household_id);
create index dog_by_trainer on dog (practice_id, trainer_id);

create table dog_weight (
  practice_id uuid not null,
  dog_id uuid not null,
  weighed_on date not null,
  kg double precision not null check (kg > 0 and kg < 150),
  primary key (practice_id, dog_id, weighed_on),
  foreign key (practice_id, dog_id) references dog (practice_id, id)
);

create table trigger (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  what text not null check (length(what) between 1 and 200),
  note text not null default '' check (length(note) <= 500),
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id)
);
create index trigger_by_dog on trigger (practice_id, dog_id);

create table reinforcer (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  what text not null check (length(what) between 1 and 200),
  rank smallint not null check (rank between 1 and 5),
  is_toy boolean not null default false,
  kcal_per_g double precision check (kcal_per_g > 0 and kcal_per_g < 10),
  grams_per_piece double precision check (grams_per_piece > 0 and grams_per_piece < 100),
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id)
);
create index reinforcer_by_dog on reinforcer (practice_id, dog_id);

create table place (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  name text not null check (length(name) between 1 and 120),
  distraction smallint not null check (distraction between 1 and 5),
  secure boolean,
  near_road boolean,
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id)
);
create index place_by_dog on place (practice_id, dog_id);

create table off_lead_permission (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  place_id uuid not null,
  granted_by uuid not null,
  granted_at timestamptz not null,
  lapsed_at timestamptz,
  lapsed_because text not null default '' check (length(lapsed_because) <= 200),
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, place_id) references place (practice_id, id),
  foreign key (practice_id, granted_by) references membership (practice_id, id)
);
create unique index off_lead_permission_that_holds on off_lead_permission (practice_id, dog_id, place_id) where lapsed_at is null;
create index off_lead_permission_by_dog on off_lead_permission (practice_id, dog_id);
create index off_lead_permission_by_place on off_lead_permission (practice_id, place_id);
create index off_lead_permission_by_granter on off_lead_permission (practice_id, granted_by);

call tenant_table('dog');
call tenant_table('dog_weight');
call tenant_table('trigger');
call tenant_table('reinforcer');
call tenant_table('place');
call tenant_table('off_lead_permission');
