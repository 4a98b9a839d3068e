using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>Fills in a form: the text stays whatever the host says or does not say.</summary>
internal sealed class FormScreen : Screen
{
    private readonly Form _form;
    private readonly string _before;
    private readonly Action<string> _after;
    private IReadOnlyList<Fault> _faults = [];
    private Action? _leaving;
    private bool _sending;
    private int _width = 80;

    /// <param name="saved">What comes after saving; the screen below is loaded again where nothing is given.</param>
    public FormScreen(Desk desk, Form form, Action<string>? saved = null) : base(desk)
    {
        _form = form;
        _before = form.State;
        _after = saved ?? desk.BackAndReload;
    }

    public override string Title => _form.Title;

    public bool Dirty => _form.State != _before;

    private Field Current => _form.Fields[Row];

    public override int Rows => _form.Fields.Count;

    protected override bool RowHasMore => true;

    public override bool Holds => false;

    public override Typing? Typing
    {
        get
        {
            if (_leaving is not null || Current is not TypedField typed) return null;
            var line = FormLines.LineOf(Lines(_width, 0), Row);
            const int column = FormLines.LabelWidth + 3;
            return new Typing(line, column, Math.Max(10, _width - column - 1), typed.Text, text => typed.Text = text);
        }
    }

    public override IReadOnlyList<Bound> Keys => _leaving is not null ? LeaveKeys() : [.. FieldKeys(), .. FormKeys()];

    public override IReadOnlyList<Line> Lines(int width, int height)
    {
        _width = width;
        return FormLines.Of(_form, Row, _faults, width, Signs);
    }

    /// <summary>Asks before what was entered is lost.</summary>
    public void AskToLeave(Action leave)
    {
        _leaving = leave;
        Desk.Message = $"Not saved. {Client.Keys.Yes.Shown} leaves it, {Client.Keys.No.Shown} stays.";
    }

    private IReadOnlyList<Bound> FieldKeys() => Current switch
    {
        TypedField => [new(Client.Keys.EnterField, () => Step(1))],
        ChoiceField choice =>
        [
            new(Client.Keys.ChoiceNext, () => choice.Step(1)), new(Client.Keys.ChoiceBefore, () => choice.Step(-1)),
            new(Client.Keys.EnterField, () => Step(1)),
        ],
        PickField { NotAsked: true } => [new(Client.Keys.EnterField, () => Step(1))],
        PickField pick => [new(Client.Keys.EnterPick, () => Desk.Open(new PickScreen(Desk, pick, () => Step(1))))],
        _ => [],
    };

    private IReadOnlyList<Bound> FormKeys() =>
    [
        new(Client.Keys.NextField, () => Step(1)), new(Client.Keys.FieldBefore, () => Step(-1)),
        new(Client.Keys.Down, () => Step(1)), new(Client.Keys.Up, () => Step(-1)),
        new(Client.Keys.Save, () => Save(confirmed: false), () => _sending ? "it is being saved" : null),
        new(Client.Keys.Confirm, () => Save(confirmed: true), () => _faults.Any(Doubted) ? null : "no value was called implausible"),
        new(Client.Keys.Again, () => { }, () => "a form is saved, not loaded"),
        new(Client.Keys.Back, Leave),
    ];

    private IReadOnlyList<Bound> LeaveKeys() =>
    [
        new(Client.Keys.Yes, () => { var leave = _leaving!; _leaving = null; leave(); }),
        new(Client.Keys.No, () => _leaving = null),
        new(Client.Keys.Back, () => _leaving = null),
    ];

    private static bool Doubted(Fault fault) => fault.Code == Problems.Implausible;

    private void Step(int by) => Row = (Row + by + Rows) % Rows;

    private void Leave()
    {
        if (Dirty) AskToLeave(Desk.Back);
        else Desk.Back();
    }

    private void Save(bool confirmed)
    {
        var filled = _form.Fill(confirmed);
        _faults = filled.Faults;
        if (_faults.Count > 0)
        {
            ToFirstFault("Not saved");
            return;
        }
        _sending = true;
        Fetch(filled.Send, Saved, Refused, Silent);
    }

    private void Saved(Stored stored)
    {
        _sending = false;
        Desk.Saved();
        _after(stored.Sentence);
    }

    private void Refused(Problem problem)
    {
        _sending = false;
        _faults = problem.Errors is { Count: > 0 } errors ? errors : [new Fault("", problem.Code, $"{problem.Title}: {problem.Detail}")];
        ToFirstFault("Not saved");
    }

    private void Silent(Unreachable<Stored> gone)
    {
        _sending = false;
        Desk.Message = gone.MayHaveArrived
            ? $"No proper answer ({gone.Why}). It may be stored: look at the record before saving again. The text is kept."
            : $"Not saved: {gone.Why}. The text is kept; {Client.Keys.Save.Shown} tries again.";
    }

    private void ToFirstFault(string what)
    {
        var field = _form.Fields.ToList().FindIndex(field => _faults.Any(field.IsNamedBy));
        if (field >= 0) Row = field;
        var doubt = _faults.Any(Doubted) ? $" If the value is right, {Client.Keys.Confirm.Shown} saves it." : "";
        Desk.Message = $"{what}: {(_faults.Count == 1 ? "one thing is" : $"{_faults.Count} things are")} to be put right, marked with !.{doubt}";
    }
}
