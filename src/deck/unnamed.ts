/** What a new draft is called until its author gives it a name. */
export const UNNAMED = 'my/deck';
