/**
 * 120 questions that people at a fair text to a stall, in English and Spanish, spelt as people type with one thumb, with
 * the subject that a right answer is about. Written before the answers were; common practice, no source.
 */
const SUBJECTS = [
  "payment",
  "place",
  "hours",
  "price",
  "children",
  "shipping",
  "wait",
  "own-garment",
  "fabric",
  "exchange",
] as const;

type Question = { text: string; subject: (typeof SUBJECTS)[number] };

const ENGLISH = `
payment     | cards?
payment     | do u take cards
payment     | Can I pay with my phone?
payment     | cash only??
payment     | do you guys accept credit cards or just cash
payment     | is it cash or card
payment     | can i pay w a debit card
payment     | Do you take contactless
place       | where are you?
place       | wer r u guys at
place       | Where is your booth
place       | cant find u, which row are you in
place       | where do i pick it up
place       | how do i find the stall
place       | what's your location
hours       | until when?
hours       | what time do you close
hours       | when do u guys close tonite
hours       | are you still open
hours       | r u here tomorrow too?
hours       | what are your hours
hours       | how late are you open
hours       | will you be here sunday
price       | how much?
price       | how much is a tee
price       | hw much r the hoodies
price       | price?
price       | what do the caps cost
price       | how much for 2 shirts
price       | How much is the otter one in navy
price       | whats the price of a tote bag
children    | kids' sizes?
children    | do you have kids sizes
children    | got anything for a 5 year old?
children    | do u have toddler shirts
children    | any youth sizes in navy
children    | is there a baby size
children    | my daughter is 8, do they come that small
shipping    | do you ship?
shipping    | can you mail it to me
shipping    | do u ship to canada
shipping    | can i order online and have it delivered
shipping    | do you have a website where i can order later
wait        | how long is the wait?
wait        | how long does it take
wait        | how long will it be
wait        | is there a long line rn
wait        | hows the wait right now
own-garment | can i bring my own shirt
own-garment | can you print on my jacket
own-garment | could u press it on a shirt i already have
own-garment | do you print on stuff we bring
fabric      | is it 100% cotton
fabric      | what are the shirts made of
fabric      | do they shrink in the wash
fabric      | how do i wash it
exchange    | can i exchange it if it doesnt fit
exchange    | what if its too small
exchange    | do you do refunds
exchange    | can i return it
`;

const SPANISH = `
payment     | tarjeta?
payment     | aceptan tarjeta??
payment     | se puede pagar con tarjeta
payment     | solo efectivo?
payment     | puedo pagar con el cel
payment     | aseptan tarjetas de credito
payment     | como se paga, efectivo o tarjeta?
payment     | Reciben tarjeta de débito?
place       | donde estan?
place       | dónde están ubicados
place       | en q parte de la feria estan
place       | donde queda el puesto
place       | no los encuentro, donde andan
place       | donde recojo mi pedido
place       | cual es la ubicacion
hours       | hasta que hora?
hours       | asta q hora estan
hours       | a que hora cierran
hours       | siguen abiertos?
hours       | van a estar mañana
hours       | cual es el horario
hours       | q dias estan
hours       | a qué hora abren el domingo
price       | cuanto cuesta?
price       | cuanto sale una camiseta
price       | precio?
price       | q precio tienen las gorras
price       | cuanto x 2 playeras
price       | cuánto valen las bolsas
price       | a como las camisetas
price       | cuanto cuesta la negra de la nutria
children    | tienen tallas de niño?
children    | hay para niños
children    | tallas infantiles?
children    | tienen algo para una nena de 5 años
children    | hay talla para bebe
children    | tienen camisetas d niña en azul
children    | mi hijo tiene 8 años le queda alguna?
shipping    | hacen envios?
shipping    | me lo pueden mandar a casa
shipping    | envian a mexico
shipping    | se puede pedir por internet
shipping    | tienen pagina web para comprar despues
wait        | cuanto tardan?
wait        | cuanto hay que esperar
wait        | en cuanto tiempo esta
wait        | hay mucha fila?
wait        | cuanto demora
own-garment | puedo llevar mi propia camiseta
own-garment | estampan en ropa q uno trae
own-garment | me pueden estampar una chamarra mia
own-garment | si traigo mi playera la imprimen?
fabric      | son de algodon?
fabric      | de que material son
fabric      | se encogen al lavarlas
fabric      | como se lava
exchange    | se puede cambiar si no me queda
exchange    | y si me queda chica
exchange    | hacen devoluciones
exchange    | aceptan cambios?
`;

/** Written after the answers were, to be harder: put in other words, or about the subject in passing. */
const FURTHER_ENGLISH = `
payment     | do y'all take plastic
payment     | can i tap my phone to pay
payment     | u take cash?
place       | which tent is yours
place       | im at the gate where do i go
place       | are you near the stage?
place       | whereabouts are you
hours       | how long you guys here for
hours       | open tmrw?
hours       | you guys closed already?
hours       | when do you pack up
price       | hoodie price
price       | whats it gonna cost me
price       | is it more for XL
price       | how much are totes n caps
children    | anything for kids
children    | smallest size for a toddler?
children    | do these come in kids
shipping    | could you send it to my house
shipping    | do u deliver
shipping    | can i buy one after the fair
wait        | whats the eta if i order now
wait        | is it busy
wait        | how backed up are you
own-garment | i brought a denim jacket can you do it
own-garment | can u use my shirt
fabric      | is it soft
fabric      | will it shrink
fabric      | tumble dry ok?
exchange    | can i swap it later if its too big
exchange    | money back if it doesnt fit?
`;

const FURTHER_SPANISH = `
payment     | pago con tarjeta?
payment     | se aceptan tarjetas
place       | por donde estan
place       | en que lugar estan
hours       | ya cerraron?
hours       | hasta cuando estan
price       | cuanto cobran
price       | que precio la gorra
children    | hay tallas chicas para mi niña
shipping    | hacen entregas a domicilio
wait        | cuanto se tardan
fabric      | es 100% algodon?
exchange    | puedo devolverla
own-garment | me la estampan en mi sudadera?
`;

const read = (rows: string): Question[] =>
  rows
    .trim()
    .split("\n")
    .map((row) => {
      const [subject = "", text = ""] = row.split("|").map((part) => part.trim());
      const known = SUBJECTS.find((one) => one === subject);
      if (known === undefined) throw new Error(`no such subject: ${row}`);
      return { text, subject: known };
    });

/** Further questions: 23 of the 45 were answered rightly when they were new. */
export const FURTHER_QUESTIONS = { en: read(FURTHER_ENGLISH), es: read(FURTHER_SPANISH) };

/** The questions of each language, 60 each. */
export const QUESTIONS = { en: read(ENGLISH), es: read(SPANISH) };
