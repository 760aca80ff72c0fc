// The page's types are made from the one description of the interface, never written by hand.
import { writeFileSync } from "node:fs";
import openapi, { astToString } from "openapi-typescript";

const schema = new URL("../../api/schema.json", import.meta.url);
const target = new URL("../src/api/schema.d.ts", import.meta.url);
writeFileSync(target, "// Made by `npm run types`; not kept.\n" + astToString(await openapi(schema)));
