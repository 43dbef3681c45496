/** Notes `tables DAY`: the folders into which the tables of a day were written. */
export const TABLES_NOTE = 'tables ';
/** Notes `changed DAY`: how often what its tables told came to be otherwise since the first were written. */
export const CHANGED_NOTE = 'changed ';
