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

    private const int HeaderRows = 2;

    private readonly Desk _desk;
    private readonly TextField _field;
    private Typing? _typing;
    private bool _placing;
    private int _bodyRows = 1;

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
        var footer = FooterLines.Of(FooterKeys(), width, _desk.Signs);
        var message = MessageLines.Of(_desk.Message, width, _desk.Signs);
        _bodyRows = height - HeaderRows - footer.Count - message.Count;
        PaintAll(HeaderLines.Of(Top.Title, _desk.Server, Top.Pending > 0, Top.Trouble.Length > 0 && Top is not FormScreen, width, _desk.Signs), 0, HeaderRows, -1);
        PaintBody(width);
        PaintAll(message, HeaderRows + _bodyRows, message.Count, -1);
        PaintAll(footer, height - footer.Count, footer.Count, -1);
        return true;
    }

    private IReadOnlyList<Bound> FooterKeys()
    {
        var typing = Top.Typing is not null;
        var help = new Bound(typing ? Keys.HelpTyping : Keys.Help, () => { });
        return [.. Top.Keys, new Bound(Keys.Back, () => { }, () => _desk.Depth > 1 ? null : "this is the first screen"), help];
    }

    private void PaintBody(int width)
    {
        var lines = Top.Lines(width, _bodyRows);
        KeepInView(lines);
        PaintAll(lines.Skip(Top.Scrolled).ToList(), HeaderRows, _bodyRows, Top.Rows > 0 ? Top.Row : -1);
        if (Top.Scrolled + _bodyRows < lines.Count && lines.Count > 0) PaintMore(HeaderRows + _bodyRows - 1, width);
    }

    /// <summary>Says that more lies below, over the right end of the last line.</summary>
    private void PaintMore(int y, int width)
    {
        const string more = "  more below";
        SetAttribute(_desk.Look.For(Role.Faint, picked: false));
        AddStr(width - more.Length, y, more);
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

    private void KeepInView(IReadOnlyList<Line> lines)
    {
        var (top, most) = (Top.Scrolled, Math.Max(0, lines.Count - _bodyRows));
        var (first, last) = Wanted(lines);
        if (last >= top + _bodyRows) top = last - _bodyRows + 1;
        if (first < top) top = first;
        // the heading above the first row comes along with it
        if (Top.Rows > 0 && Top.Row == 0 && last < _bodyRows) top = 0;
        Top.Scrolled = Math.Clamp(top, 0, most);
    }

    private (int First, int Last) Wanted(IReadOnlyList<Line> lines)
    {
        if (Top.Typing is { } typing) return (typing.Line, typing.Line);
        if (Top.Rows == 0) return (Top.Scrolled, Top.Scrolled);
        var (first, last) = (-1, -1);
        for (var i = 0; i < lines.Count; i++)
        {
            if (lines[i].Row != Top.Row) continue;
            if (first < 0) first = i;
            last = i;
        }
        return first < 0 ? (Top.Scrolled, Top.Scrolled) : (first, last);
    }

    private bool Handle(Key key)
    {
        if (TooSmall) return Press(key, [new Bound(Keys.Leave, _desk.End)]);
        var typing = Top.Typing is not null;
        if (typing && Types(key)) return false;
        _desk.Message = "";
        var done = Press(key, [.. Top.Keys, .. Everywhere(_desk)]) || (!typing && Travel(key));
        Refresh();
        // while nothing is typed no key may reach a hidden default of the toolkit
        return done || !typing;
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

    private bool Travel(Key key)
    {
        var step = key == Keys.Up.Key ? -1 : key == Keys.Down.Key ? 1
            : key == Keys.PageUp.Key ? 1 - _bodyRows : key == Keys.PageDown.Key ? _bodyRows - 1
            : key == Keys.First.Key ? -100_000 : key == Keys.Last.Key ? 100_000 : 0;
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
            KeepInView(Top.Lines(Viewport.Width, _bodyRows));
            (_field.X, _field.Y) = (_typing.Column, HeaderRows + _typing.Line - Top.Scrolled);
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
