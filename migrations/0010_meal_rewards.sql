-- Whether a reinforcer comes out of the daily meals: then it is no extra, and does not count towards the share of the
-- day that may be treats. Not stated (null) counts as an extra.
alter table reinforcer add column from_meals boolean;
