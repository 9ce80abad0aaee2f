import type { Phrase } from "../catalog.ts";

/** What is to be done before the day of the work, and what is checked after it. */
export const NOTICES: readonly Phrase[] = [
  ["Before work", "antes del trabajo"],
  ["No day is planned yet", "todavía no hay un día previsto"],
  ["dates count back from {date}", "las fechas se cuentan hacia atrás desde el {date}"],
  ["post no-parking signs at the work", "coloque señales de no estacionar en el lugar"],
  ["ask the road authority about the closure", "consulte el cierre con la autoridad vial"],
  [
    "ask the line's owner about an outage or protective cover",
    "consulte con el dueño de la línea un corte o una cubierta protectora",
  ],
  ["ask the owners of the trees for permission", "pida permiso a los dueños de los árboles"],
  ["get the permits for protected trees", "obtenga los permisos de los árboles protegidos"],
  [
    "The line's owner is asked about an outage or protective cover",
    "se consulta con el dueño de la línea un corte o una cubierta protectora",
  ],
  ["Not the city's tree", "no es árbol de la ciudad"],
  ["only with the owner's permission", "solo con permiso del dueño"],
  ["only with a permit", "solo con permiso"],
  [
    "{number1} of these {number2} trees, drawn by lot when the work is done, are checked before it is accepted",
    "{number1} de estos {number2} árboles, sorteados cuando el trabajo esté hecho, se revisan antes de aceptarlo",
  ],
  ["Every tree is checked before the work is accepted", "cada árbol se revisa antes de aceptar el trabajo"],
];
