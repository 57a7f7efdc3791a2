import { Hono } from "hono";

export const pages = new Hono();
