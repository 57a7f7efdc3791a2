/** Opens the planning page without a network. The figures typed are the page's own. */
import { keepPages } from "./kept-pages.ts";

keepPages({ family: "planner ", pages: ["/plan"], assets: ["/assets/plan-worker.js"] });
