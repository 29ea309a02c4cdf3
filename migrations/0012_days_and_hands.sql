-- The days on which a household can practise; null means "not stated", and every day counts. Of a sitting: the loop of the
-- line around a hand, a break in between, a muzzle on. Null means "not stated", never "no".

alter table dog add column practice_days text[]
  check (practice_days <@ '{monday,tuesday,wednesday,thursday,friday,saturday,sunday}' and cardinality(practice_days) > 0);

alter table practice_log
  add column loop_round_hand boolean,
  add column had_break boolean,
  add column muzzle_worn boolean;
