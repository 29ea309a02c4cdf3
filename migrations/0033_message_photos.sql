-- A photo may be of a message as well.
--
-- Safe while people work: the column may be empty, and every photo that is there is of one thing already.

alter table photo add column message_id uuid;
alter table photo add constraint photo_message foreign key (practice_id, message_id) references message (practice_id, id);
create index photo_by_message on photo (practice_id, message_id);
alter table photo drop constraint photo_check;
alter table photo add constraint photo_of_one_thing check (num_nonnulls(log_id, encounter_id, message_id) = 1) not valid;
alter table photo validate constraint photo_of_one_thing;
