-- How a harness or a muzzle should sit, as a trainer approved it on a photo, and what the household last said when asked "like this?".
--
-- Safe while people work: the table is new. Taking the photo away takes the approval with it.

create table fit (
  practice_id uuid not null,
  dog_id uuid not null,
  gear text not null check (gear in ('harness', 'muzzle')),
  photo_id uuid not null,
  approved_by uuid not null,
  approved_at timestamptz not null,
  answer text check (answer in ('like_this', 'changed')),
  answered_by uuid,
  answered_at timestamptz,
  primary key (practice_id, dog_id, gear),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, photo_id) references photo (practice_id, id),
  foreign key (practice_id, approved_by) references membership (practice_id, id),
  foreign key (practice_id, answered_by) references membership (practice_id, id),
  check ((answer is null) = (answered_by is null) and (answer is null) = (answered_at is null))
);
create index fit_by_photo on fit (practice_id, photo_id);
create index fit_by_approver on fit (practice_id, approved_by);
create index fit_by_answerer on fit (practice_id, answered_by);

call tenant_table('fit');
