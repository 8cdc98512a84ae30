"""The style sheets of all screens; they stand on the app, since a default screen does not load one of its own."""

# Rows from which on the clock is large; sheets over it begin below it.
TALL = [(0, "-short"), (30, "-tall")]

# The first screen waits for this one alone: a line takes a sixth of a millisecond to read.
DAY_STYLES = """
Screen { background: $role-ground; color: $role-text; layers: base over; }
.band { background: $role-ground; }
.band.-wrap-up { background: $role-wrap-up-ground; }
.band.-over { background: $role-over-ground; }
#clock { height: 5; }
#lesson-row { height: 1; }
#body { height: 1fr; background: $role-pane; }
#notice { layer: over; dock: bottom; height: 1; padding: 0 1; color: $role-text; background: $role-ground; }
#strip { height: 1; padding: 0 1; background: $role-ground; }
.pane { width: 1fr; height: 1fr; background: $role-pane; }
.pane:focus-within { background: $role-pane; }
.heading { height: 1; padding: 0 1; color: $role-quiet; background: $role-pane; }
.pane:focus-within .heading { color: $role-text; }
OptionList { border: none; height: 1fr; padding: 0; background: $role-pane; color: $role-text; scrollbar-size: 0 1; scrollbar-gutter: stable; }
OptionList:focus { border: none; background-tint: transparent; }
OptionList > .option-list--option { padding: 0 0 0 1; }
OptionList > .option-list--option-highlighted { background: $role-pane; color: $role-text; text-style: none; }
OptionList:focus > .option-list--option-highlighted { background: $role-cursor-ground; color: $role-cursor-text; text-style: none; }
OptionList > .option-list--option-disabled { color: $role-quiet; text-style: none; }
#text { border: none; padding: 0 0 0 1; height: 1fr; background: $role-pane; color: $role-text; scrollbar-size-vertical: 1; }
#text:focus { border: none; }
#text .text-area--cursor { background: $role-text; color: $role-pane; }
#text .text-area--cursor-line { background: $role-pane; }
#text .text-area--selection { background: $role-selection-ground; }
#text .text-area--suggestion { color: $role-quiet; background: $role-pane; text-style: italic not bold; }
.notes-text--kept-back { color: $role-private; }
.notes-text--asked { color: $role-asked; text-style: bold; }
#understood-line { height: 3; content-align: left bottom; text-wrap: nowrap; text-overflow: ellipsis; padding: 0 1 0 3; color: $role-student; background: $role-pane; }
#count { height: 1; text-wrap: nowrap; text-overflow: ellipsis; padding: 0 1 0 3; color: $role-quiet; background: $role-pane; }
#remember, #remark, #progress { padding: 0 1; background: $role-pane; }
.-tall #clock { height: 8; }
#next { height: 1; display: none; background: $role-ground; }
DayScreen.-one #next { display: block; }
DayScreen.-one #notice { margin: 0 0 1 0; }
.-one #clock { height: 4; }
#lessons > .option-list--option { padding: 0; }
.-tall #understood-line { height: 4; }
.-two #understood-line, .-three #understood-line { border-top: solid $role-line; margin: 0 1; padding: 0 0 0 2; }
DayScreen.-one .pane { display: none; }
DayScreen.-one.show-queue #queue, DayScreen.-one.show-last #last, DayScreen.-one.show-notes #notes { display: block; }
DayScreen.-two #body { layout: grid; grid-size: 2 2; grid-columns: 38 1fr; grid-rows: auto 1fr; grid-gutter: 0 1; }
DayScreen.-two #queue { height: auto; max-height: 9; }
DayScreen.-two.-tall #queue { max-height: 16; padding: 0 0 1 0; }
DayScreen.-two #lessons { height: auto; }
DayScreen.-two #notes { row-span: 2; }
DayScreen.-three #body { layout: grid; grid-size: 3 1; grid-columns: 38 6fr 5fr; grid-gutter: 0 1; }
#waiting { height: auto; padding: 0 1 0 0; }
DayScreen.-three.-tall #body { padding: 1 0 0 0; }
"""

STYLES_OVER_DAY = """
#curtain { width: 100%; height: 100%; background: $role-ground; }
CurtainScreen { layers: curtain line; }
#curtain { layer: curtain; }
#board-line { layer: line; dock: bottom; border: none; height: 1; padding: 0 1; background: $role-selection-ground; color: $role-text; }
CurtainScreen ToastRack { max-height: 0; }
OptionList.walked > .option-list--option-highlighted { background: $role-cursor-ground; color: $role-cursor-text; }
#roster { height: 1fr; background: $role-pane; }
#detail { height: 5; padding: 0 1; background: $role-pane; }
RosterScreen.-tall #detail { height: 13; padding: 1 1 0 1; }
RosterScreen.-beside #roster { layout: horizontal; }
RosterScreen.-beside #students { width: 1fr; }
RosterScreen.-beside #detail { width: 45; height: 1fr; padding: 0 1; }
#families { height: 1fr; background: $role-pane; }
#letter { height: 1fr; }
#whom { height: 1; padding: 0 1; }
#whom Static { width: auto; padding: 0 1 0 0; }
#whom Input { width: 1fr; border: none; height: 1; padding: 0 1; background: $role-selection-ground; color: $role-text; }
#whom-said, #letter-said { max-height: 3; }
#guardians { height: auto; max-height: 30%; }
FamilyLetterScreen.-tall #text { margin: 1 0; }
FamilyLetterScreen.-beside #families { layout: horizontal; }
FamilyLetterScreen.-beside #guardians { width: 52; height: 1fr; max-height: 100%; }
#day-line { height: 3; padding: 0 1; background: $role-pane; }
#days { height: 1fr; background: $role-pane; }
#review { width: 1fr; }
#tomorrow { margin: 0 0 0 2; }
#tomorrow > .option-list--option { padding: 0; }
#grid { height: 1fr; padding: 0 0 0 1; background: $role-pane; }
#year { height: 1fr; padding: 0 1; background: $role-pane; }
#preview, #earlier-room { height: 1fr; padding: 0 0 0 1; background: $role-pane; color: $role-text; scrollbar-size-vertical: 1; scrollbar-gutter: stable; }
#facts { height: auto; padding: 0 1; background: $role-pane; }
#attended { height: auto; padding: 0 1; background: $role-pane; color: $role-quiet; }
PageScreen.-tall #attended { padding: 0 1 1 1; }
#item { height: 3; padding: 0 2; background: $role-pane; }
RecitalScreen.-tall #item { padding: 1 2 0 2; }
#live { height: 4; padding: 0 1; background: $role-pane; }
#pieces, #history { height: 1fr; background: $role-pane; }
PreviewPart { height: auto; }
PreviewScreen.-tall #facts { padding: 0 1 1 1; }
PreviewScreen.-one #kept { padding: 1 0 0 0; }
PreviewScreen.-beside #preview { layout: horizontal; }
PreviewScreen.-beside #family { width: 1fr; }
PreviewScreen.-beside #kept { width: 44; padding: 0 0 0 4; }
Title { height: auto; padding: 0 1; background: $role-pane; }
.-tall Title { padding: 1 1; }
SearchField { height: auto; padding: 0 1; background: $role-pane; }
.-tall SearchField { padding: 1 1; }
SearchField Static { width: auto; padding: 0 2 0 0; text-wrap: nowrap; text-overflow: ellipsis; }
SearchField #said { width: 1fr; color: $role-quiet; }
HelpScreen SearchField Input { max-width: 32; }
HelpScreen.-one #said { display: none; }
HelpScreen.-reading #said { display: block; }
HelpScreen.-reading SearchField Input { display: none; }
SearchField Input { width: 1fr; border: none; height: 1; padding: 0 1; background: $role-selection-ground; color: $role-text; }
ModalScreen { align: center top; background: $role-ground 30%; }
.sheet { width: 100%; height: auto; max-height: 100%; margin: 5 0 0 0; padding: 1 0 0 0; background: $role-pane; border-bottom: solid $role-line; }
.-tall .sheet { margin: 8 0 0 0; }
.-one .sheet { margin: 4 0 0 0; }
.sheet:focus-within .heading { color: $role-text; }
.letter { height: 100%; }
.letter #text { padding: 0 0 0 3; }
.sheet OptionList { height: auto; max-height: 12; }
.sheet OptionList > .option-list--option { padding: 0 0 0 3; }
.sheet Input { border: none; height: 1; margin: 0 1 0 3; padding: 0 1; background: $role-selection-ground; color: $role-text; }
.sheet .footnote { padding: 0 1 0 3; }
#about { height: 2; padding: 0 1 0 3; color: $role-quiet; background: $role-ground; }
.-tall #about { height: 4; padding: 1 1 1 3; }
#page { height: 1fr; display: none; padding: 0 0 0 1; background: $role-pane; scrollbar-size-vertical: 1; scrollbar-gutter: stable; }
PageText { height: auto; }
HelpScreen.-reading #page { display: block; }
HelpScreen.-reading WalkedRows, HelpScreen.-reading #about { display: none; }
.footnote { height: auto; padding: 0 1; color: $role-quiet; }
"""
