-- By when what is open on a dog is to be answered, in place of since when its oldest stop waits: a call for help goes to whoever is on
-- duty as a stop does, and signs for a vet do so within hours.
--
-- Not safe for a program of before: it reads the column that goes. Row-level security is lifted from its owner for the one update, and
-- forced again in the same transaction: nobody else ever sees it off. What a practice has set changes none of it.

alter table dog_summary add column answer_due timestamptz;
alter table dog_summary drop constraint stop_since_while_open;

alter table dog_summary no force row level security;
alter table welfare_flag no force row level security;
update dog_summary s set answer_due = f.due, open_stops = f.stops, not_coping_open = f.not_coping
  from (select s.practice_id, s.dog_id, count(f.id) filter (where f.severity = 'stop')::int as stops,
          coalesce(bool_or(f.rule = 'not_coping'), false) as not_coping,
          min(f.raised_at + case
            when f.severity = 'stop' and f.rule in ('vet_now', 'heat_illness', 'harmful_food_paid') then interval '4 hours'
            else interval '24 hours' end) filter (where f.severity = 'stop' or f.rule = 'not_coping') as due
        from dog_summary s
        left join welfare_flag f on f.practice_id = s.practice_id and f.dog_id = s.dog_id and f.state = 'open'
        group by s.practice_id, s.dog_id) f
  where s.practice_id = f.practice_id and s.dog_id = f.dog_id
    and (f.due is not null or s.open_stops > 0 or s.not_coping_open);
alter table dog_summary force row level security;
alter table welfare_flag force row level security;

alter table dog_summary drop column stop_since;
alter table dog_summary add constraint answer_is_due_while_open
  check ((open_stops > 0 or not_coping_open) = (answer_due is not null)) not valid;
alter table dog_summary validate constraint answer_is_due_while_open;
