"""Sentences of the room tables that tests look for."""

from .label import Label

AREA = Label("area")
DRILL = Label("drill")
GIVE_FILE_MOST = Label("give a file of at most {n} MB")
GIVE_FILE_SOMETHING = Label("give a file with something in it")
GIVE_NAME_DRILL = Label("give the name of a drill in this book")
GIVE_TABLE_CSV = Label("give a table as CSV or XLSX: this is no text")
HIDDEN_SHEETS_LEFT = Label("Hidden sheets were left alone: {names}.")
LEAVE_OUT_COLUMN = Label("leave it out: column {other} says it too")
NET_SEED = Label("net seed")
NOTE = Label("note")
NO_COLUMN_SAYS = Label("no column says “{name}”: choose which one does, or add it")
OUTLINE = Label("outline")
SAVE_CSV_UTF = Label(
    "save it as CSV in UTF-8: line {line} holds the byte {byte}, which is neither that nor "
    "Windows-1252"
)
SAVE_LONGITUDE_LATITUDE = Label("save it in longitude and latitude (WGS 84)")
SAVE_XLSX_CSV = Label("save it as XLSX or CSV: the older form of spreadsheets is not read")
SEVERAL_DRILLS_HAVE = Label("several drills have this name: give its id")
SHEET_READ = Label("The sheet “{name}” was read.")
SPLIT_JOINED_CELLS = Label("split the joined cells {cells}, and fill in each")
TREATED = Label("treated")
WRITE_TEXT_SPREADSHEET = Label("write it as text: the spreadsheet took it for a date")
WRITE_UNIT_FITS = Label("write a unit that fits, such as {us} or {metric}, in brackets")
