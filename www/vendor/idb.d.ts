// What the page uses of idb.

/** A store inside a transaction. */
export interface Store {
  getAll(): Promise<unknown[]>;
  put(value: unknown): Promise<IDBValidKey>;
  clear(): Promise<void>;
}
/** A database that is open. */
export interface Database {
  transaction(store: string, mode: "readonly" | "readwrite"): { store: Store; done: Promise<void> };
  close(): void;
}
/** Opens a database, making its stores when it is new. */
export function openDB(
  name: string,
  version: number,
  callbacks: { upgrade(database: { createObjectStore(name: string, options: { keyPath: string }): unknown }): void },
): Promise<Database>;
