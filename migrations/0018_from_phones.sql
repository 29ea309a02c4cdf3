-- What phones say of sittings and encounters that were kept there before they were sent: the clock, zone and offset of the
-- phone, whether its clock was corrected, and when each counted attempt was.
--
-- Safe while people work: nullable columns are added without rewriting a table; the new check is validated apart, which
-- does not block writing.

alter table practice_log
  add column phone_at timestamptz,
  add column phone_zone text check (length(phone_zone) <= 64),
  add column phone_offset_minutes smallint check (phone_offset_minutes between -1440 and 1440),
  add column clock_corrected boolean not null default false;
alter table encounter
  add column phone_at timestamptz,
  add column phone_zone text check (length(phone_zone) <= 64),
  add column phone_offset_minutes smallint check (phone_offset_minutes between -1440 and 1440),
  add column clock_corrected boolean not null default false;
alter table attempt add column after_ms integer check (after_ms >= 0);

alter table practice_log drop constraint practice_log_capture_check;
alter table practice_log add constraint practice_log_capture_check
  check (capture in ('one_tap', 'form', 'lesson', 'counted_live')) not valid;
alter table practice_log validate constraint practice_log_capture_check;
