// What the page uses of idb.

/** A store inside a transaction. */
export interface Store {
  getAll(): Promise<unknown[]>;
  get(key: string): Promise<unknown>;
  put(value: unknown, key: string): Promise<IDBValidKey>;
  delete(key: string): Promise<void>;
}
/** A database that is open. */
export interface Database {
  readonly objectStoreNames: DOMStringList;
  transaction(
    store: string,
    mode: "readonly" | "readwrite",
    options?: IDBTransactionOptions,
  ): { store: Store; done: Promise<void> };
  close(): void;
}
/** Opens a database, making its stores when it is new. */
export function openDB(
  name: string,
  version: number,
  callbacks: { upgrade(database: { createObjectStore(name: string): unknown }): void },
): Promise<Database>;
