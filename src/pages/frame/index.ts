// Frame: what all pages are made of: the page around, style, figures, marks, tables, names of files and anchors, paging.
// In: what a page says. Out: the text of an HTML file that needs no network, no script and no other file.
// Must not know: days, machines' figures, settlements, files on disk.
export { anchorText, type CashAnchor, cashAnchor, columnAnchor } from './anchors.js';
export { CautionMarks, Cautions, type CautionsProps } from './cautions.js';
export { DataTable, type DataTableProps, type TableColumn, TableRow } from './data-table.js';
export { Absent, Money, type MoneyProps, Pieces, type PiecesProps, When } from './figures.js';
export { Findings, type FindingsProps } from './findings.js';
export { Heading, type HeadingLevel, type HeadingProps } from './heading.js';
export { MachinePageNames } from './machine-page-names.js';
export { Mark, type MarkTone, SeverityMark, VerdictMark, VisitMark } from './marks.js';
export { Page, type PageProps } from './page.js';
export { byteLength, LARGEST_PAGE, type PageLimits, pageOut } from './paging.js';
export { Parts, type PartsProps } from './parts.js';
export { renderPage, renderPart } from './render-page.js';
export { SafeNames, slugOf } from './safe-names.js';
export { LONGEST_SENTENCE, LONGEST_SHOWN, Shown } from './shown.js';
export { DAY_PAGE, makeSite, type NavLink, type PageFile, type ShownHead, type Site, type SiteGiven } from './site.js';
export { STYLE_SHEET } from './style-sheet.js';
