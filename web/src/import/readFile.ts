// The bytes of a chosen file as text that can be sent.
export async function asDataAddress(file: Blob): Promise<string> {
  return new Promise((done, fail) => {
    const reader = new FileReader();
    reader.onload = () => done(String(reader.result));
    reader.onerror = () => fail(reader.error ?? new Error("unreadable"));
    reader.readAsDataURL(file);
  });
}
export async function asBase64(file: Blob): Promise<string> {
  const address = await asDataAddress(file);
  return address.slice(address.indexOf(",") + 1);
}
