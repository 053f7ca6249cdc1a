"""Sentences of the room tables that tests look for."""

from .label import Label

AREA = Label("area")
DRILL = Label("drill")
GIVE_FILE_MOST = Label("choose a file of at most {n} MB")
GIVE_FILE_SOMETHING = Label("choose a file that is not empty")
GIVE_NAME_DRILL = Label("enter the name of a drill in this book")
GIVE_TABLE_CSV = Label("choose a table as CSV or XLSX: this is not text")
HIDDEN_SHEETS_LEFT = Label("Hidden sheets were skipped: {names}.")
LEAVE_OUT_COLUMN = Label("leave this column out: column {other} already has it")
NET_SEED = Label("net seed")
NOTE = Label("note")
NO_COLUMN_SAYS = Label("no column has “{name}”: choose the one that does, or add it")
OUTLINE = Label("boundary")
SAVE_CSV_UTF = Label(
    "save it as CSV (UTF-8): line {line} has the byte {byte}, which is neither "
    "UTF-8 nor Windows-1252"
)
SAVE_LONGITUDE_LATITUDE = Label("save it in longitude and latitude (WGS 84)")
SAVE_XLSX_CSV = Label("save it as XLSX or CSV: the older spreadsheet format can't be read")
SEVERAL_DRILLS_HAVE = Label("several drills have this name: use its ID")
SHEET_READ = Label("The sheet “{name}” was read.")
SPLIT_JOINED_CELLS = Label("unmerge the cells {cells} and fill in each one")
TABLE_WOULD_CHANGE = Label(
    "{new} new, {changed} changed, {known} already in the book, {twice} repeated in the file."
)
TREATED = Label("treated")
WRITE_TEXT_SPREADSHEET = Label("enter it as text: the spreadsheet turned it into a date")
WRITE_UNIT_FITS = Label("enter a unit that fits, such as {us} or {metric}, in parentheses")
