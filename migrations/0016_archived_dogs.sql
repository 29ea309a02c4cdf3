-- Dogs that have left the work: put away from the caseload, with everything that is recorded of them.
--
-- Safe while people work: a nullable column without a default is added without rewriting the table.

alter table dog add column archived_at timestamptz;
