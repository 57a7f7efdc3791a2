export const OWNER_SECRET = "the-owner-of-this-test-deployment";
export const GATEWAY_SECRET = "shared with the test gateway";
