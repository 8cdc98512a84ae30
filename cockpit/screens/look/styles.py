"""The style sheet of all screens; it stands on the app, since a default screen does not load one of its own."""

# Rows from which on the clock is large; sheets over it begin below it.
TALL = [(0, "-short"), (30, "-tall")]

STYLES = """
Screen { background: $role-ground; color: $role-text; }
#clock { height: 5; background: $role-ground; }
#body { height: 1fr; }
#notice { height: 2; padding: 0 1; color: $role-text; background: $role-ground; }
#strip { height: 2; padding: 0 1; background: $role-ground; }
.pane { width: 1fr; height: 1fr; background: $role-pane; }
.title { height: 1; padding: 0 1; color: $role-title; text-style: bold; background: $role-pane; }
.pane:focus-within { background: $role-pane; }
.pane:focus-within .title { text-style: bold reverse; }
OptionList { border: none; height: 1fr; padding: 0; background: $role-pane; color: $role-text; scrollbar-size-vertical: 1; }
OptionList:focus { border: none; background-tint: transparent; }
OptionList > .option-list--option { padding: 0 1; }
OptionList > .option-list--option-highlighted { background: $role-pane; color: $role-text; text-style: none; }
OptionList:focus > .option-list--option-highlighted { background: $role-cursor-ground; color: $role-cursor-text; text-style: none; }
OptionList > .option-list--option-disabled { color: $role-title; text-style: bold; }
#text { border: none; padding: 0 1; height: 1fr; background: $role-pane; color: $role-text; scrollbar-size-vertical: 1; }
#text:focus { border: none; }
#text .text-area--cursor { background: $role-text; color: $role-pane; }
#text .text-area--cursor-line { background: $role-pane; text-style: bold; }
#text .text-area--selection { background: $role-selection-ground; }
#text .text-area--suggestion { color: $role-quiet; background: $role-pane; text-style: italic not bold; }
.notes-text--kept-back { color: $role-private; }
#understood-line { height: 2; content-align: left bottom; text-wrap: nowrap; text-overflow: ellipsis; padding: 0 1; color: $role-student; background: $role-pane; }
#count { height: 2; text-wrap: nowrap; text-overflow: ellipsis; padding: 0 1; color: $role-quiet; background: $role-pane; }
#entry { height: 1; text-wrap: nowrap; text-overflow: ellipsis; padding: 0 1; background: $role-pane; color: $role-quiet; }
#remember { height: auto; max-height: 6; padding: 0 1; background: $role-pane; }
#week > .option-list--option-disabled { color: $role-quiet; text-style: none; }
#preview { height: 1fr; padding: 0 1; background: $role-pane; color: $role-text; scrollbar-size-vertical: 1; }
#sums { height: 1; padding: 0 1; }
#columns { height: 1; padding: 0 1; background: $role-pane; }

.-tall #clock { height: 7; }
.-tall #understood-line { height: 3; }
.-three #notice { height: 1; }

DayScreen.-one .pane { display: none; }
DayScreen.-one.show-queue #queue, DayScreen.-one.show-last #last, DayScreen.-one.show-notes #notes { display: block; }
DayScreen.-two #body { layout: grid; grid-size: 2 2; grid-columns: 38 1fr; grid-rows: 1fr 1fr; grid-gutter: 0 1; }
DayScreen.-two #notes { row-span: 2; }
DayScreen.-three #body { layout: grid; grid-size: 3 1; grid-columns: 42 1fr 1fr; grid-gutter: 0 1; }

ModalScreen { align: center top; background: $role-ground 30%; }
CommandPalette { background: $role-ground 30%; }
CommandPalette > Vertical { margin-top: 5; }
CommandPalette.-tall > Vertical { margin-top: 7; }
CommandPalette CommandList { max-height: 55vh; }
CommandList > .option-list--option-highlighted { background: $role-cursor-ground; color: $role-cursor-text; }
SearchIcon { display: none; }
.sheet { width: 90%; max-width: 90; height: 100%; margin: 5 0 0 0; background: $role-pane; border: tall $role-line; }
.-tall .sheet { margin: 7 0 0 0; }
.few { max-height: 20; }
.sheet Input { border: none; height: 1; margin: 0 1; background: $role-selection-ground; color: $role-text; }
#help { max-width: 150; }
#help-list, GuidePane { height: 1fr; }
#help-list:focus-within, GuidePane:focus-within { height: 2fr; }
#help-list:focus-within .title, GuidePane:focus-within .title { text-style: bold reverse; }
#help-hints { height: 1; dock: bottom; padding: 0 1; color: $role-quiet; text-wrap: nowrap; text-overflow: ellipsis; }
#about { height: 2; padding: 0 1; color: $role-quiet; }
#page { height: 1fr; padding: 0 1; scrollbar-size-vertical: 1; scrollbar-gutter: stable; }
PageText { height: auto; }
HelpScreen.-short #help { width: 100%; border: none; }
HelpScreen.-beside #help { layout: horizontal; }
HelpScreen.-beside #help-list { width: 52; height: 100%; border-right: tall $role-line; }
HelpScreen.-beside GuidePane { width: 1fr; height: 100%; }
.footnote { height: auto; padding: 0 1; color: $role-quiet; }
"""
