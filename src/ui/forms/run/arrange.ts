/** Numbered steps, in the order of their numbers; ids. All functions give a new list. */
export type Order = readonly string[];

/** Gives the next number, or takes it away: the later ones move up. */
export const toggle = (order: Order, id: string): Order =>
  order.includes(id) ? order.filter((one) => one !== id) : [...order, id];

/** Puts a numbered step to another place, from 0; beyond the ends it stays at the end. */
export const move = (order: Order, id: string, to: number): Order => {
  if (!order.includes(id)) return order;
  const rest = order.filter((one) => one !== id);
  const at = Math.max(0, Math.min(rest.length, to));
  return [...rest.slice(0, at), id, ...rest.slice(at)];
};
