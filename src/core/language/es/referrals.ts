import type { Phrase } from "../catalog.ts";

/** Why a tree is referred, and what can be done where rules end. */
export const REFERRALS: readonly Phrase[] = [
  ["Referred", "remitido"],
  ["a licensed arborist decides", "decide un arborista con licencia"],
  ["The tree is reported dead, and pruning cannot help it", "se informa que el árbol está muerto, y podar no le ayuda"],
  [
    "have a licensed arborist confirm it, then remove it, or keep a safe part of it as habitat",
    "haga que un arborista con licencia lo confirme y luego retírelo, o conserve una parte segura como hábitat",
  ],
  [
    "The trunk stands inside {things} as mapped, which no pruning cures",
    "según el mapa el tronco está dentro de {things}, lo que ninguna poda remedia",
  ],
  [
    "check the position and the mapped width, then let a licensed arborist weigh keeping the tree and marking it against removing it",
    "compruebe la posición y el ancho del mapa, y deje que un arborista con licencia decida entre conservar el árbol señalándolo o retirarlo",
  ],
  [
    "Only cutting the top would clear the overhead line, and trees are not topped",
    "solo cortar la punta despejaría la línea aérea, y los árboles no se desmochan",
  ],
  [
    "ask the line's owner about insulating or moving the line, or replacing the tree by a lower species",
    "consulte con el dueño de la línea si puede aislarla o moverla, o reemplazar el árbol por una especie más baja",
  ],
  [
    "line-clearance arborists decide on site whether any leader can be cut back to a lateral",
    "los arboristas de despeje de líneas deciden en el sitio si alguna guía puede recortarse hasta un lateral",
  ],
  [
    "Bringing its leaders down to {length} would take about {share} of the crown",
    "bajar sus guías a {length} quitaría cerca de {share} de la copa",
  ],
  [
    "Bringing its leaders down to {length} would take about {share} of the crown and is ruled out: it {clause}",
    "bajar sus guías a {length} quitaría cerca de {share} de la copa y queda descartado: {clause}",
  ],
  ["Clearing {things} would break the limits on pruning", "despejar {things} rompería los límites de la poda"],
  [
    "Clearing {things} would break the limits on pruning ({clause})",
    "despejar {things} rompería los límites de la poda ({clause})",
  ],
  [
    "Staged visits taking at most {share} would take the limbs toward {thing} up to a height of {length}",
    "visitas por etapas que quiten {share} como máximo quitarían las ramas hacia {thing} hasta una altura de {length}",
  ],
  [
    "Staged visits taking at most {share} would bring the branches back no farther than to {thing} itself",
    "visitas por etapas que quiten {share} como máximo harían retroceder las ramas solo hasta {thing}",
  ],
  [
    "Staged visits taking at most {share} would reach {length} at {thing}, which would not last a year",
    "visitas por etapas que quiten {share} como máximo llegarían a {length} junto a {thing}, lo que no duraría un año",
  ],
  [
    "Staged visits taking at most {share} would reach {length1} of the {length2} wanted above {thing}",
    "visitas por etapas que quiten {share} como máximo llegarían a {length1} de los {length2} deseados sobre {thing}",
  ],
  [
    "Staged visits taking at most {share} would reach {length1} of the {length2} wanted beside {thing}",
    "visitas por etapas que quiten {share} como máximo llegarían a {length1} de los {length2} deseados junto a {thing}",
  ],
  [
    "Ask the line's owner and line-clearance arborists to decide on part of it, on insulating or moving the line, or on replacing the tree by a lower species",
    "pida al dueño de la línea y a arboristas de despeje de líneas que decidan sobre una parte, sobre aislar o mover la línea, o sobre reemplazar el árbol por una especie más baja",
  ],
  [
    "The owner can let a licensed arborist decide on part of it, move or mark what is in the way, or replace the tree",
    "el dueño puede dejar que un arborista con licencia decida sobre una parte, mover o señalar lo que estorba, o reemplazar el árbol",
  ],
  [
    "It stands in {things}, and raising its crown out of it would break the limits on pruning",
    "está en {things}, y elevar su copa fuera rompería los límites de la poda",
  ],
  [
    "It stands in {things}, and raising its crown out of it would break the limits on pruning ({clause})",
    "está en {things}, y elevar su copa fuera rompería los límites de la poda ({clause})",
  ],
  [
    "The owner and the traffic engineer can accept it, mark or slow the road, let a licensed arborist open part of it, move the tree while it is small, or replace it by one that grows taller or by plants that stay below {length}",
    "el dueño y el ingeniero de tránsito pueden aceptarlo, señalizar o frenar la vía, dejar que un arborista con licencia abra una parte, trasplantar el árbol mientras es pequeño, o reemplazarlo por uno que crezca más alto o por plantas que queden por debajo de {length}",
  ],
  [
    "It stands in {things}, and keeping it below {length} would break the limits on pruning",
    "está en {things}, y mantenerlo por debajo de {length} rompería los límites de la poda",
  ],
  [
    "It stands in {things}, and keeping it below {length} would break the limits on pruning ({clause})",
    "está en {things}, y mantenerlo por debajo de {length} rompería los límites de la poda ({clause})",
  ],
  [
    "The owner can let a licensed arborist renew it in stages, move it, or replace it by plants that stay below {length}",
    "el dueño puede dejar que un arborista con licencia lo renueve por etapas, trasplantarlo, o reemplazarlo por plantas que queden por debajo de {length}",
  ],
  ["No rule clears {things} from this tree", "ninguna regla despeja {things} de este árbol"],
  ["No rule clears {things} from this shrub", "ninguna regla despeja {things} de este arbusto"],
  ["No rule clears {things} from this hedge", "ninguna regla despeja {things} de este seto"],
  ["No rule clears {things} from this palm", "ninguna regla despeja {things} de esta palma"],
  [
    "Let a licensed arborist decide, or replace it by a form that fits the place",
    "deje que decida un arborista con licencia, o reemplácelo por una forma que quepa en el lugar",
  ],
  ["measure {sizes}, and the tree's {measures}", "mida {sizes}, y del árbol {measures}"],
  ["measure {sizes}", "mida {sizes}"],
  ["Confirm what the view rests on", "confirme en qué se basa la vista"],
  [
    "A hazard is open, but no live wood may be taken before {date} ({clause})",
    "hay un peligro abierto, pero no se puede quitar madera viva antes del {date} ({clause})",
  ],
  ["pruned less than 12 months ago", "podado hace menos de 12 meses"],
  ["newly planted, not yet established", "recién plantado, aún no establecido"],
  ["no planting date is known, and it may be new", "no se conoce la fecha de plantación, y puede ser nuevo"],
  [
    "let a licensed arborist decide whether to cut now, and mark or close the place meanwhile",
    "deje que un arborista con licencia decida si se corta ahora, y mientras tanto señale o cierre el lugar",
  ],
  [
    "A hazard is open, but no planting date is known and the stem is thin enough for a new planting, which keeps its live branches until {date}",
    "hay un peligro abierto, pero no se conoce la fecha de plantación y el tallo es tan delgado como el de un árbol nuevo, que conserva sus ramas vivas hasta el {date}",
  ],
  ["find out when it was planted", "averigüe cuándo se plantó"],
  [
    "If that is more than {number} months ago, enter the date and prune it now",
    "si fue hace más de {number} meses, anote la fecha y pódelo ahora",
  ],
  [
    "if not, let a licensed arborist decide whether to cut",
    "si no, deje que un arborista con licencia decida si se corta",
  ],
  ["Mark or close the place meanwhile", "mientras tanto señale o cierre el lugar"],
  [
    "The tree is long enough to strike an overhead line if it fell, and {defects} is reported",
    "el árbol es tan largo que golpearía una línea aérea si cayera, y se informa {defects}",
  ],
  [
    "have a qualified tree risk assessor look at it, and tell the line's owner",
    "haga que lo mire un evaluador de riesgo calificado, y avise al dueño de la línea",
  ],
  ["Decay is reported, which pruning does not cure", "se informa pudrición, que la poda no remedia"],
  ["have a qualified tree risk assessor look at it", "haga que lo mire un evaluador de riesgo calificado"],
];
