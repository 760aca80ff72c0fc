// What a class of thickness is called.
import { stem } from "../words/format";
import { speech, t } from "../words/speech.svelte";
import { CLASSES } from "./frame";

export function thickness(least: number): string {
  const said = (metres: number) => stem(metres, speech.units, speech.language);
  if (least > 0) return t("roots.thicker", { mm: said(least) });
  return t("roots.thinner", { mm: said(CLASSES.at(-2)?.least ?? 0) });
}
