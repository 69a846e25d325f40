/** What could drive a terminal: control characters but for tab and line feed. For a class of a regular expression. */
const control = '\\u0000-\\u0008\\u000b-\\u001f\\u007f-\\u009f';
/** What could make a line read otherwise than it is: marks, embeddings and isolates of direction. Source: Unicode Standard Annex #9, table 4 (from memory). */
const direction = '\\u061c\\u200e\\u200f\\u202a-\\u202e\\u2066-\\u2069';

/** Characters that show nothing and change what is shown, for a class of a regular expression; tab and line feed are not among them. */
export const hiddenCharacters = `${control}${direction}`;
