using System.Globalization;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>A leak-down as it stands. Clock: since the stop, null before it. Typed: what is typed of the look taken at TypedAt.
/// UpToDate: the outlook is about all readings. Waiting: entries that the server has not heard; Safe: a file has them.</summary>
internal sealed record LeakState(
    CheckView Check, string Unit, TimeSpan? Clock, IReadOnlyList<Glance> Readings, LeakOutlook? Outlook, bool UpToDate,
    string? Typed, TimeSpan TypedAt, int Waiting, bool Silent, bool Safe, Glance? Doubted, LeakDetails Details);

/// <summary>The leak-down: cautions and steps before it; then clock, large figures, verdict and plot.</summary>
internal static class LeakLines
{
    private const int LeastPlot = 5, Gap = 4;
    private const double Possible = 0.1;

    public static IReadOnlyList<Line> Of(LeakState state, int width, int height, Signs signs)
    {
        if (state.Clock is null) return Before(state, width, signs);
        List<Line> lines = [Caution(state.Check, width, signs), .. Head(state, width, signs), .. Verdict(state, width, signs)];
        var room = height - lines.Count;
        return room < LeastPlot ? lines : [.. lines, .. LeakPlot.Of(state.Readings, state.Outlook, state.Clock.Value.TotalMinutes, width, room, signs)];
    }

    /// <summary>Verdict, shape and time constant in words.</summary>
    public static IEnumerable<Line> Outlook(LeakOutlook outlook, int width, Signs signs, Role role = Role.Title)
    {
        foreach (var piece in Cells.Wrap(Clean.Of(outlook.Says, signs), width - 4)) yield return Line.Of("  " + piece, role);
        var shape = outlook.Shapes.MaxBy(each => each.Probability);
        var tau = outlook.Tau.Words();
        var text = shape is null ? tau : $"Shape: {shape.Words} ({Chance(shape.Probability, outlook)}); {tau}";
        foreach (var piece in Cells.Wrap(Clean.Of(text + ByLaw(outlook), signs), width - 4)) yield return Line.Of("  " + piece);
    }

    /// <summary>Where two laws stay possible whose time constants lie apart, each with its own; one interval for both would hide that.</summary>
    private static string ByLaw(LeakOutlook outlook)
    {
        List<LeakLawShare> possible = [.. outlook.Laws.Where(each => each.Probability >= Possible)];
        return possible.All(each => each.Tau.Median >= possible[0].Tau.Low && each.Tau.Median <= possible[0].Tau.High) ? ""
            : $". By cause: {string.Join("; less likely ", possible.Select(each => $"{each.Words}, {each.Tau.Span()}"))}";
    }

    private static List<Line> Before(LeakState state, int width, Signs signs)
    {
        List<Line> lines = [];
        foreach (var caution in state.Check.Cautions) lines.AddRange(Wrapped($"CAUTION: {caution}", Role.Warning));
        if (state.Check.Cautions.Count == 0) lines.AddRange(Wrapped("The car's workshop manual, local rules and licensed practice come first.", Role.Faint));
        lines.AddRange(Wrapped($"Gauge connected, pump running, pressure up? Press {Keys.PumpStopped.Shown} at the moment in which the pump stops.", Role.Title));
        if (About(state.Details) is { Length: > 0 } about) lines.AddRange(Wrapped($"Noted: {about}", Role.Faint));
        lines.Add(LikelyLines.Rule("Steps", width, signs));
        foreach (var step in state.Check.Steps) lines.AddRange(Wrapped(step, Role.Plain));
        return lines;

        IEnumerable<Line> Wrapped(string text, Role role) => Cells.Wrap(Clean.Of(text, signs), width - 4).Select(piece => Line.Of("  " + piece, role));
    }

    private static Line Caution(CheckView check, int width, Signs signs) =>
        Line.Of(Cells.Cut("  " + Clean.Of(check.Cautions.Count > 0 ? $"CAUTION: {check.Cautions[0]}" : "The workshop manual goes first.", signs), width, signs), Role.Warning);

    /// <summary>Large figures at the left, clock and state beside them.</summary>
    private static IEnumerable<Line> Head(LeakState state, int width, Signs signs)
    {
        var last = state.Readings.Count > 0 ? state.Readings[^1] : null;
        var figures = state.Typed ?? (last is null ? "-" : last.Pressure.Value.ToString("0.##", CultureInfo.InvariantCulture));
        var big = BigFigures.Of(figures.Length == 0 ? "-" : figures, signs);
        var side = Side(state, last);
        for (var row = 0; row < BigFigures.Rows; row++)
        {
            var (text, role) = row < side.Count ? side[row] : ("", Role.Plain);
            var left = new string(' ', 2) + big[row] + (row == BigFigures.Rows - 1 ? " " + state.Unit : "");
            var room = Math.Max(Cells.Width(big[0]) + 2 + state.Unit.Length + 1, 30) + Gap;
            yield return Line.Of(row: null, new Span(Cells.Fit(left, Math.Min(room, width / 2), signs), Role.Title), new Span(Cells.Cut(Clean.Of(text, signs), width - Math.Min(room, width / 2), signs), role));
        }
    }

    private static List<(string Text, Role Role)> Side(LeakState state, Glance? last)
    {
        List<(string, Role)> side = [($"{Clock(state.Clock!.Value)} since the pump stopped", Role.Title)];
        if (state.Typed is not null) side.Add(($"look at {Clock(state.TypedAt)}: {state.Typed}_ {state.Unit}", Role.Title));
        else side.Add((last is null ? $"no reading yet: {Keys.Glance.Shown}, then the pressure" : $"{Count(state.Readings.Count)}, the last at {Clock(TimeSpan.FromMinutes(last.Minutes))}", Role.Plain));
        if (state.Doubted is { } doubted) side.Add(($"IMPLAUSIBLE: {Figures.Of(doubted.Pressure)}; {Keys.Confirm.Shown}: it is right", Role.Warning));
        if (state.Waiting > 0 && state.Silent) side.Add(($"NO CONNECTION: kept {(state.Safe ? "in a file" : "here")}, waiting: {state.Waiting}", Role.Warning));
        else if (state.Waiting > 0) side.Add(($"sending {state.Waiting} ...", Role.Faint));
        if (About(state.Details) is { Length: > 0 } about) side.Add((about, Role.Faint));
        return side;
    }

    private static string About(LeakDetails details)
    {
        string?[] known =
        [
            details.Ambient is { } air ? $"air {Figures.Of(air)}" : null, details.Fuel is { } fuel ? $"fuel {Figures.Of(fuel)}" : null,
            details.Session is { } session ? $"session {session}" : null, details.Note,
        ];
        return string.Join(", ", known.OfType<string>());
    }

    private static List<Line> Verdict(LeakState state, int width, Signs signs)
    {
        if (state.Outlook is not { } outlook) return [Line.Of("  The first reading brings a verdict.", Role.Faint)];
        var role = !state.UpToDate ? Role.Faint : Role.Title;
        List<Line> lines = [.. Outlook(outlook, width, signs, role)];
        return state.UpToDate ? lines : [Line.Of($"  As of {Clock(TimeSpan.FromMinutes(outlook.AsOfMinutes))}, without what waits:", Role.Faint), .. lines];
    }

    public static string Clock(TimeSpan time) => string.Create(CultureInfo.InvariantCulture, $"{(int)Math.Max(0, time.TotalMinutes):00}:{Math.Max(0, time.Seconds):00}");

    private static string Count(int readings) => readings == 1 ? "1 reading" : $"{readings} readings";

    private static string Chance(double p, LeakOutlook outlook) => PlainFigures.Chance(p, outlook.Figures);
}
