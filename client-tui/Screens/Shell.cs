using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using Terminal.Gui.Input;
using Terminal.Gui.ViewBase;
using Terminal.Gui.Views;
using Line = FuelHistory.Client.Words.Line;

namespace FuelHistory.Client.Screens;

/// <summary>The one window: paints header, body, message and footer of the topmost screen, and hands it the keys.</summary>
internal sealed class Shell : Runnable
{
    public const int LeastWidth = 60;
    public const int LeastHeight = 16;

    private const int HeaderRows = 2, MostRows = 1_000_000_000;

    private static readonly Key[] Always = [Keys.Back.Key, Keys.Leave.Key, Keys.HelpAnywhere.Key, Keys.HelpTyping.Key, Keys.Again.Key];

    private readonly Desk _desk;
    private readonly TextField _field;
    private Typing? _typing;
    private bool _placing, _pressing;

    public Shell(Desk desk)
    {
        _desk = desk;
        CanFocus = true;
        Width = Dim.Fill();
        Height = Dim.Fill();
        _field = new TextField { Visible = false, Height = 1 };
        _field.SetScheme(Look.Typing());
        _field.KeyDown += (_, key) => key.Handled = Handle(key);
        _field.HasFocusChanged += (_, change) => { if (change.NewValue) AtTheEnd(); };
        _field.TextChanged += (_, _) => Typed();
        Add(_field);
        _desk.Changed += Refresh;
    }

    private Screen Top => _desk.Top;

    private bool TooSmall => Viewport.Width < LeastWidth || Viewport.Height < LeastHeight;

    /// <summary>The keys that belong to every screen, after the screen's own.</summary>
    public static IReadOnlyList<Bound> Everywhere(Desk desk) =>
    [
        new(Keys.Help, () => desk.Open(new HelpScreen(desk, desk.Top))),
        new(Keys.HelpAnywhere, () => desk.Open(new HelpScreen(desk, desk.Top))),
        new(Keys.HelpTyping, () => desk.Open(new HelpScreen(desk, desk.Top))),
        new(Keys.Back, desk.Back),
        new(Keys.Again, desk.Top.Load),
        new(Keys.Leave, desk.End),
    ];

    protected override bool OnKeyDown(Key key) => Handle(key);

    protected override void OnFrameChanged(in System.Drawing.Rectangle frame)
    {
        base.OnFrameChanged(frame);
        if (_desk.Depth == 0) return;
        Refresh();
        // the field takes the focus again only when the new layout stands
        _desk.Loop.Post(Refresh);
    }

    protected override bool OnDrawingContent(DrawContext? context)
    {
        var (width, height) = (Viewport.Width, Viewport.Height);
        if (TooSmall)
        {
            PaintAll(SmallLines.Of(width, height, LeastWidth, LeastHeight), 0, height, -1);
            return true;
        }
        var (footer, message, rows) = Parts(width, height);
        var seen = Top.See(width, rows);
        var old = Top is not FormScreen && (Top.Trouble.Length > 0 || Top.Stale);
        PaintAll(HeaderLines.Of(Top.Title, _desk.Server, Top.Pending > 0, old, width, _desk.Signs, seen.Place), 0, HeaderRows, -1);
        PaintAll(seen.Lines, HeaderRows, rows, Top.Rows > 0 ? Top.Row : -1);
        PaintAll(message, HeaderRows + rows, message.Count, -1);
        PaintAll(footer, height - footer.Count, footer.Count, -1);
        return true;
    }

    /// <summary>What is pasted for a screen that is still loading is kept like what is typed.</summary>
    public void TakePaste(object? sender, PasteEventArgs paste)
    {
        if (!Top.Holds) return;
        _desk.Ahead.Keep(paste.Text);
        paste.Handled = true;
        Refresh();
    }

    /// <summary>Footer and message, and the rows that they leave to the body.</summary>
    private (IReadOnlyList<Line> Footer, IReadOnlyList<Line> Message, int Body) Parts(int width, int height)
    {
        var footer = FooterLines.Of(FooterKeys(), width, _desk.Signs);
        var message = MessageLines.Of(_desk.Message, width, _desk.Signs);
        return (footer, message, Math.Max(1, height - HeaderRows - footer.Count - message.Count));
    }

    private IReadOnlyList<Bound> FooterKeys()
    {
        // where letters are kept for what is loading, only the key that is no letter is help
        var typing = Top.Typing is not null || Top is IWaiting;
        var help = new Bound(typing ? Keys.HelpTyping : Keys.Help, () => { });
        return [.. Top.Keys.Where(bound => bound.Use != Keys.HelpAnywhere && bound.Use != Keys.HelpTyping), new Bound(Keys.Back, () => { }, () => _desk.Depth > 1 ? null : "this is the first screen"), help];
    }

    private void PaintAll(IReadOnlyList<Line> lines, int from, int count, int pickedRow)
    {
        for (var i = 0; i < count; i++)
        {
            var line = i < lines.Count ? lines[i] : Line.Blank;
            Paint(line, from + i, line.Row is not null && line.Row == pickedRow);
        }
    }

    private void Paint(Line line, int y, bool picked)
    {
        var (x, width) = (0, Viewport.Width);
        Move(0, y);
        foreach (var span in line.Spans)
        {
            var text = Cells.Cut(span.Text, width - x, _desk.Signs);
            SetAttribute(_desk.Look.For(span.Role, picked));
            AddStr(text);
            x += Cells.Width(text);
        }
        SetAttribute(_desk.Look.For(Role.Plain, picked));
        AddStr(new string(' ', Math.Max(0, width - x)));
        if (picked) AddStr(0, y, _desk.Signs.Mark);
    }

    private bool Handle(Key key)
    {
        if (TooSmall) return Press(key, [new Bound(Keys.Leave, _desk.End)]);
        var typing = Top.Typing is not null;
        if (typing && Types(key)) return false;
        _desk.Message = "";
        var table = Table();
        if (Keeps(key, table))
        {
            Refresh();
            return true;
        }
        var done = Press(key, table) || (Top.Travels && Travel(key));
        Refresh();
        // while nothing is typed no key may reach a hidden default of the toolkit
        return done || !typing;
    }

    private List<Bound> Table() => [.. Top.Keys, .. Everywhere(_desk)];

    /// <summary>Keeps a key that can do its work only once the screen is loaded, and all keys after it: their order is their meaning.</summary>
    private bool Keeps(Key key, IReadOnlyList<Bound> table)
    {
        if (!Top.Holds) return false;
        if (Always.Contains(key)) return false;
        var works = Top.Loaded && Travels(key) || table.Any(bound => bound.Use.Key == key && bound.Reason is null);
        if (works && Top is not IWaiting && _desk.Ahead.Keys.Count == 0) return false;
        _desk.Ahead.Keep(key);
        return true;
    }

    /// <summary>Presses the keys that were kept, as far as they find what they are meant for.</summary>
    private void PressKept()
    {
        if (_pressing) return;
        _pressing = true;
        if (Top.Typing is null && !Top.Loaded && Top.Pending == 0 && Top is not IWaiting) _desk.Ahead.Drop();
        while (!Top.Holds && _desk.Ahead.Next() is { } key) NewKeyDownEvent(key);
        _pressing = false;
    }

    private bool Press(Key key, IReadOnlyList<Bound> table)
    {
        if (table.FirstOrDefault(bound => bound.Use.Key == key && bound.Reason is null) is { } works)
        {
            works.Do();
            return true;
        }
        if (table.FirstOrDefault(bound => bound.Use.Key == key) is not { } idle) return false;
        _desk.Message = $"{idle.Use.Shown} does nothing now: {idle.Reason}";
        return true;
    }

    private static bool Types(Key key) => !key.IsCtrl && !key.IsAlt && key.AsRune.Value >= ' ';

    private static bool Travels(Key key) => HelpLines.Travel.Any(use => use.Key == key);

    private bool Travel(Key key)
    {
        var page = Math.Max(1, Top.See(Viewport.Width, Parts(Viewport.Width, Viewport.Height).Body) is var seen ? seen.Lines.Count - seen.Pinned - 1 : 1);
        var step = key == Keys.Up.Key ? -1 : key == Keys.Down.Key ? 1
            : key == Keys.PageUp.Key ? -page : key == Keys.PageDown.Key ? page
            : key == Keys.First.Key ? -MostRows : key == Keys.Last.Key ? MostRows : 0;
        if (step == 0) return false;
        if (Top.Rows > 0) Top.Row = Math.Clamp(Top.Row + step, 0, Top.Rows - 1);
        else Top.Scrolled = Math.Max(0, Top.Scrolled + step);
        return true;
    }

    private void Typed()
    {
        if (_placing || _typing is null) return;
        _typing.Changed(_field.Text);
        SetNeedsDraw();
    }

    /// <summary>Draws again, and puts the text field where the topmost screen wants it.</summary>
    private void Refresh()
    {
        PlaceField();
        PressKept();
        SetNeedsDraw();
    }

    private void PlaceField()
    {
        _placing = true;
        Place();
        _placing = false;
    }

    private void Place()
    {
        _typing = TooSmall ? null : Top.Typing;
        if (_typing is null)
        {
            _field.Visible = false;
            SetFocus();
        }
        else
        {
            var seen = Top.See(Viewport.Width, Parts(Viewport.Width, Viewport.Height).Body);
            (_field.X, _field.Y) = (_typing.Column, HeaderRows + seen.RowOf(_typing.Line));
            _field.Width = Math.Min(_typing.Width, Viewport.Width - _typing.Column);
            var other = _field.Text != _typing.Text;
            if (other) _field.Text = _typing.Text;
            _field.Visible = true;
            _field.SetFocus();
            if (other) AtTheEnd();
        }
    }

    /// <summary>The toolkit marks all of a field's text when it gets the focus, and the next letter would wipe that out.</summary>
    private void AtTheEnd()
    {
        _field.ClearAllSelection();
        _field.MoveEnd();
    }
}
