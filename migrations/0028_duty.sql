-- Who answers a stop when the dog's own trainer has not in time, and since when the oldest open stop of a dog waits.
--
-- Safe while people work: nullable columns, and a check that nothing can break yet. Row-level security is lifted from its owner for the
-- one update that says since when, and forced again in the same transaction: nobody else ever sees it off.

alter table practice add column duty_trainer_id uuid;
alter table practice add constraint practice_duty_trainer
  foreign key (id, duty_trainer_id) references membership (practice_id, id);
create index practice_by_duty_trainer on practice (id, duty_trainer_id);

alter table dog_summary add column stop_since timestamptz;

alter table dog_summary no force row level security;
alter table welfare_flag no force row level security;
update dog_summary s set stop_since = f.since, open_stops = f.stops
  from (select s.practice_id, s.dog_id, count(f.id)::int as stops, min(f.raised_at) as since
        from dog_summary s
        left join welfare_flag f on f.practice_id = s.practice_id and f.dog_id = s.dog_id and f.state = 'open' and f.severity = 'stop'
        group by s.practice_id, s.dog_id) f
  where s.practice_id = f.practice_id and s.dog_id = f.dog_id and (f.stops > 0 or s.open_stops > 0);
alter table dog_summary force row level security;
alter table welfare_flag force row level security;

alter table dog_summary add constraint stop_since_while_open
  check ((open_stops > 0) = (stop_since is not null)) not valid;
alter table dog_summary validate constraint stop_since_while_open;
