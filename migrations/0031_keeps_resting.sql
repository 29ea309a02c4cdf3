-- That the exercises go on resting after a stop, or "I am not coping", was answered: until the next plan is published.
--
-- Safe while people work: a column with a constant default.

alter table welfare_flag add column keeps_resting boolean not null default false;
