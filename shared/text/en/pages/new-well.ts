/** Texts of the page that adds a well. */
export const newWellTexts = {
  actionFailed: 'The action failed. Try again.',
  cardExists: (well: string) => `${well} already has a card.`,
  allWells: 'All wells',
  title: 'Add a well',
  intro: 'Enter a name. You can fill in the card now or later.',
  name: 'Name of the well',
  barnByTheCreek: 'Barn by the creek',
  timeZone: 'Time zone of the well',
  yourName: 'Your name',
  create: 'Create well',
  savedAs: 'Saved as',
  nodeOfThatName: 'A node with this name belongs to this well, unless the card says otherwise.',
};
