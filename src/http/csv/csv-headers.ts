/** The headers of a sheet that a browser saves under a name. */
export const csvHeaders = (name: string) => ({
  "Content-Type": "text/csv; charset=utf-8; header=present",
  "Content-Disposition": `attachment; filename="${name}.csv"`,
});
