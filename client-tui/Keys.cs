using Terminal.Gui.Input;

namespace FuelHistory.Client;

/// <summary>A key: how it is written, the word beside it in the footer, the sentence in the help.</summary>
internal sealed record KeyUse(Key Key, string Shown, string Label, string Help);

/// <summary>A key in use on a screen. WhyNot: the reason for which it does nothing now; null while it works.</summary>
internal sealed record Bound(KeyUse Use, Action Do, Func<string?>? WhyNot = null)
{
    public string? Reason => WhyNot?.Invoke();
}

/// <summary>Every key, once. A letter means the same on every screen; footer and help are made from here.</summary>
internal static class Keys
{
    public static readonly KeyUse Open = new(Key.Enter, "Enter", "open", "Open what is marked");
    public static readonly KeyUse Back = new(Key.Esc, "Esc", "back", "Close the topmost thing; nothing is left that way");
    public static readonly KeyUse Help = new(new Key('?'), "?", "help", "Show the keys of this screen");
    public static readonly KeyUse HelpAnywhere = new(Key.F1, "F1", "help", "Show the keys of this screen, also while text is typed");
    public static readonly KeyUse HelpTyping = new(Key.T.WithCtrl, "Ctrl+T", "help", "Show the keys, also while text is typed");
    public static readonly KeyUse Leave = new(Key.Q.WithCtrl, "Ctrl+Q", "quit", "Leave the program");
    public static readonly KeyUse LeaveList = new(Key.Q, "q", "quit", "Leave the program");
    public static readonly KeyUse Again = new(Key.R.WithCtrl, "Ctrl+R", "load again", "Ask the server again");

    public static readonly KeyUse Up = new(Key.CursorUp, "Up", "", "One line up");
    public static readonly KeyUse Down = new(Key.CursorDown, "Down", "", "One line down");
    public static readonly KeyUse PageUp = new(Key.PageUp, "PgUp", "", "One page up");
    public static readonly KeyUse PageDown = new(Key.PageDown, "PgDn", "", "One page down");
    public static readonly KeyUse First = new(Key.Home, "Home", "", "To the first line");
    public static readonly KeyUse Last = new(Key.End, "End", "", "To the last line");

    public static readonly KeyUse Add = new(Key.A, "a", "add", "Add one to this list");
    public static readonly KeyUse Instruments = new(Key.G, "g", "gauges", "Gauges, meters and vessels");
    public static readonly KeyUse Settings = new(Key.T, "t", "settings", "Currency, labour rate, tools at hand, units, how chances are said");
    public static readonly KeyUse AddWork = new(Key.W, "w", "work", "Enter work that was done");
    public static readonly KeyUse AddComplaint = new(Key.C, "c", "complaint", "Open a complaint");
    public static readonly KeyUse AddReading = new(Key.R, "r", "reading", "Enter a reading or what a check showed");
    public static readonly KeyUse AddAnswer = new(Key.S, "s", "event", "Say what the car does, or does not do");
    public static readonly KeyUse AddSeen = new(Key.N, "n", "part seen", "Enter a part that was opened and looked at");
    public static readonly KeyUse AddOdometer = new(Key.O, "o", "odometer", "Enter an odometer reading or a new clock");
    public static readonly KeyUse AddLayUp = new(Key.L, "l", "lay-up", "Enter a time in which the car stood");
    public static readonly KeyUse AddIncident = new(Key.I, "i", "incident", "Enter something that happened: ran dry, back-fire ...");
    public static readonly KeyUse Limits = new(Key.M, "m", "limits", "What this car should read: its own limits, and those of documents to take");
    public static readonly KeyUse Adopt = new(Key.J, "j", "take it", "Take the marked limit for this car; one entered by hand goes before it");
    public static readonly KeyUse Void = new(Key.X, "x", "void", "Void the marked entry with a reason; it stays readable");
    public static readonly KeyUse Correct = new(Key.U, "u", "correct", "Correct the marked entry: a new version; the old one stays readable");
    public static readonly KeyUse Archive = new(Key.H, "h", "archive", "Take no more entries for the marked vehicle; its record stays readable");
    public static readonly KeyUse Archived = new(Key.B, "b", "archived too", "Show archived vehicles too, or leave them out again");
    public static readonly KeyUse Filter = new(new Key('/'), "/", "filter", "Show only the lines with what is typed");
    public static readonly KeyUse FilterDone = new(Key.Enter, "Enter", "done", "Keep what was typed and go to the lines");
    public static readonly KeyUse ShowAll = new(Key.Esc, "Esc", "show all", "Show all lines again");
    public static readonly KeyUse Likely = new(Key.D, "d", "likely now", "What is most likely wrong now");
    public static readonly KeyUse Plan = new(Key.P, "p", "plan", "Repairs in the order that costs least");
    public static readonly KeyUse Checks = new(Key.K, "k", "checks", "All checks, the best next one first");
    public static readonly KeyUse Why = new(Key.Y, "y", "why", "All reasons for the marked component");
    public static readonly KeyUse WhatIf = new(Key.F, "f", "what if", "Try what a check, a part or one finding less would change; nothing is stored");
    public static readonly KeyUse Try = new(Key.V, "v", "try", "Try an outcome, an answer or a part; nothing is stored");
    public static readonly KeyUse AsRecorded = new(Key.Z, "z", "as recorded", "Forget what was tried and count everything again");
    public static readonly KeyUse Switch = new(Key.Space, "Space", "off/on", "Leave the marked line out, or count it again; nothing is stored");
    public static readonly KeyUse Record = new(Key.Enter, "Enter", "record it", "It was really found: enter what is tried, in its form");
    public static readonly KeyUse Study = new(Key.F3, "F3", "causes", "What causes what in this fuel system and what tells it apart, the marked component first");
    public static readonly KeyUse SetAside = new(Key.F4, "F4", "set aside", "Do not propose the next check or trial any more: not fitted, no tool, or not today");
    public static readonly KeyUse Close = new(Key.E, "e", "end it", "Close the complaint with cause and proof");
    public static readonly KeyUse Outcome = new(Key.Enter, "Enter", "outcome", "Enter what the check showed");
    public static readonly KeyUse OpenCheck = new(Key.Enter, "Enter", "next check", "Open the best next check");

    public static readonly KeyUse WatchLive = new(Key.Space, "Space", "watch it", "Watch the pressure fall: times and figures as they come");
    public static readonly KeyUse PumpStopped = new(Key.Space, "Space", "pump stopped", "The pump stops now: time zero");
    public static readonly KeyUse Glance = new(Key.Space, "Space", "look", "Take the time of a look at the gauge; then type the pressure");
    public static readonly KeyUse TakeGlance = new(Key.Enter, "Enter", "take", "Take the pressure that was typed, at the time of the look");
    public static readonly KeyUse DropGlance = new(Key.Esc, "Esc", "drop it", "Drop this look at the gauge");
    public static readonly KeyUse RubOut = new(Key.Backspace, "Backspace", "", "Rub out the last figure typed");
    public static readonly KeyUse TakeBack = new(Key.Delete, "Del", "take back", "Take the last reading back; it stays readable and no longer counts");
    public static readonly KeyUse AboutRun = new(Key.F2, "F2", "about it", "Temperatures, session and note of this leak-down");
    public static readonly KeyUse Finish = new(Key.S.WithCtrl, "Ctrl+S", "finish", "Make one finding of these readings");

    public static readonly KeyUse NextField = new(Key.Tab, "Tab", "next", "To the next field");
    public static readonly KeyUse FieldBefore = new(Key.Tab.WithShift, "Shift+Tab", "", "To the field before");
    public static readonly KeyUse EnterField = new(Key.Enter, "Enter", "next", "To the next field");
    public static readonly KeyUse EnterPick = new(Key.Enter, "Enter", "pick", "Pick from the list");
    public static readonly KeyUse ChoiceBefore = new(Key.CursorLeft, "Left", "", "The choice before");
    public static readonly KeyUse ChoiceNext = new(Key.CursorRight, "Left/Right", "choose", "The next choice");
    public static readonly KeyUse Save = new(Key.S.WithCtrl, "Ctrl+S", "save", "Save what was entered");
    public static readonly KeyUse Confirm = new(Key.Y.WithCtrl, "Ctrl+Y", "it is right", "Save although the value looks implausible");
    public static readonly KeyUse Yes = new(Key.Y, "y", "leave it", "Leave without saving");
    public static readonly KeyUse No = new(Key.N, "n", "stay", "Stay and go on");
    public static readonly KeyUse Mark = new(Key.Enter, "Enter", "mark", "Mark the line; once more goes on to the next answer or unmarks it");
    public static readonly KeyUse Done = new(Key.Tab, "Tab", "done", "Go on with what is marked");
    public static readonly KeyUse Take = new(Key.Enter, "Enter", "take", "Take what is marked");

    /// <summary>What a pressure is typed with; the first figure takes the time of the look where no key did.</summary>
    public static IEnumerable<KeyUse> Figures => "0123456789.,".Select(figure => new KeyUse(new Key(figure), "0-9 .", "pressure", "Type the pressure; the first figure takes the time"));
}
