// Underlays are kept by this browser under this address (host and port), for each project by its
// name and system; they are no part of the project. Where the browser keeps nothing, the page
// says so.
import type { Sheet } from "../model/easel.svelte";

const STORE = "sheets";

function request<T>(asked: IDBRequest<T>): Promise<T> {
  return new Promise((done, fail) => {
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => fail(asked.error ?? new Error("not kept"));
  });
}
async function opened(): Promise<IDBDatabase> {
  const asked = indexedDB.open("rootstead-underlays", 1);
  asked.onupgradeneeded = () => void asked.result.createObjectStore(STORE);
  return request(asked);
}
export async function keptSheets(project: string): Promise<Sheet[]> {
  const base = await opened();
  try {
    const found: unknown = await request(base.transaction(STORE).objectStore(STORE).get(project));
    return Array.isArray(found) ? (found as Sheet[]) : [];
  } finally {
    base.close();
  }
}
export async function keepSheets(project: string, sheets: readonly Sheet[]): Promise<void> {
  const base = await opened();
  try {
    const work = base.transaction(STORE, "readwrite");
    const done = new Promise<void>((good, bad) => {
      work.oncomplete = () => good();
      work.onabort = work.onerror = () => bad(work.error ?? new Error("not kept"));
    });
    work.objectStore(STORE).put(sheets, project);
    await done;
  } finally {
    base.close();
  }
}
