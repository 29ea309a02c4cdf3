-- Most questions about a dog are about its last days. Without these the planner walks every sitting of the practice
-- as long as it has no statistics, as on a new database.
--
-- Building them blocks writing to the two tables for as long as a scan of them takes: seconds for a million rows.
create index practice_log_by_day on practice_log (practice_id, dog_id, local_date);
create index encounter_by_day on encounter (practice_id, dog_id, local_date);
