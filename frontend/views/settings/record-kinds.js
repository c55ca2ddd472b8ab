/* The descriptions kept in Settings, in the order a business is set up. */
export const KINDS = [
  { name: 'business', title: 'Business', one: 'The business', single: true },
  { name: 'piece', title: 'Sizes', one: 'A size' },
  { name: 'cloth', title: 'Cloths', one: 'A cloth' },
  { name: 'remnant', title: 'Remnants', one: 'A remnant' },
  { name: 'elastic', title: 'Elastic', one: 'An elastic' },
  { name: 'product', title: 'Products', one: 'A product' },
  { name: 'offer', title: 'Offers', one: 'An offer' },
  { name: 'place', title: 'Places', one: 'A place' },
  { name: 'cash-box', title: 'Cash boxes', one: 'A cash box' },
  { name: 'market', title: 'Markets', one: 'A market' },
  { name: 'booking', title: 'Bookings', one: 'A booking' },
  { name: 'person', title: 'People', one: 'A person' },
];
