/**
 * Does the work of a transaction and waits for its end.
 * @throws what brought the transaction down: its requests only say that they went with it
 */
export const through = async <T>(transaction: { readonly done: Promise<void> }, work: () => Promise<T>): Promise<T> => {
  const [result] = await Promise.all([
    work().catch((error) => transaction.done.then(() => Promise.reject(error))),
    transaction.done,
  ]);
  return result;
};
