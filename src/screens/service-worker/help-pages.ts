/** Opens help without a network: its contents, every subject, and the booklet. */
import { keepPages } from "./kept-pages.ts";

keepPages({ family: "help ", pages: ["/help"], alsoPages: /href="(\/help\/[a-z]+)"/g });
