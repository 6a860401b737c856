/** What the water of a well is used for: the codes of the card in words. */
export const USE_WORDS = {
  house: 'house',
  stock: 'stock',
  irrigation: 'irrigation',
  'heat-pump': 'heat pump',
} as const;
