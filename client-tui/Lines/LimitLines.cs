using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>Limits of a car and of documents. How far to trust one stands in words in every line.</summary>
internal static class LimitLines
{
    private const int NearWidth = 10, TrustWidth = 9, DetailRows = 3, LeastRows = 3;

    /// <summary>The marked one's car and source above; below, as far as there is room, this car's own and then the documents'.</summary>
    public static IReadOnlyList<Line> List(IReadOnlyList<Limit> own, IReadOnlyList<LibraryLimit> found, Func<string, string> check, string heading, int marked, int width, int height, Signs signs)
    {
        var all = Rows(own, found, check, heading, width, signs);
        var room = Math.Max(LeastRows, height - DetailRows);
        var at = all.Index().FirstOrDefault(each => each.Item.Row == marked).Index;
        // the headings above the first row stay with it
        return [.. Detail(own, found, marked, width, signs), .. all.Skip(Math.Clamp(at - room + 1, 0, Math.Max(0, all.Count - room))).Take(room)];
    }

    private static List<Line> Rows(IReadOnlyList<Limit> own, IReadOnlyList<LibraryLimit> found, Func<string, string> check, string heading, int width, Signs signs) =>
    [
        Line.Of("  This car's", Role.Title),
        .. own.Count > 0
            ? own.Select((each, row) => Row("set", $"{check(each.Check)}: {Figures(each)}", Short(each.Trust), row, width, signs))
            : [Line.Of("  none is set; a typical limit judges its readings", Role.Faint)],
        Line.Of("  " + Cells.Cut($"{heading}: {found.Count}", width - 3, signs), Role.Title),
        .. found.Count > 0
            ? found.Select((each, row) => Row(Near(each.Closeness), $"{each.Title}: {Said(each)}", Short(each.Trust), own.Count + row, width, signs))
            : [Line.Of("  none is known", Role.Faint)],
    ];

    /// <summary>Everything about a limit of a document.</summary>
    public static IReadOnlyList<Line> One(LibraryLimit limit, int width, Signs signs)
    {
        (string Label, string? Text)[] facts =
        [
            ("Reads", limit.Title), ("Figures", Said(limit)), ("Trust", limit.TrustText), ("Source", limit.Source), ("Given for", limit.Car),
            ("As printed", limit.Printed), ("Misprint", limit.Misprint), ("Worked out", limit.Worked), ("Measured", limit.Point), ("Set-up", limit.SetUp.Count > 0 ? string.Join("; ", limit.SetUp) : null),
            ("Depends on", limit.Over is { } over ? $"{over.Title}, in {over.Unit}" : null), ("Remark", limit.Remark), ("Not usable", limit.NotForJudging), ("No check", limit.NoCheck),
            ("Checks", limit.Checks.Count > 0 ? string.Join(", ", limit.Checks) : null), ("Systems", string.Join(", ", limit.Systems)), ("Id", limit.Id),
        ];
        return
        [
            .. facts.Where(fact => fact.Text is not null).SelectMany(fact => Fact(fact.Label, fact.Text!, width, signs)),
            .. Cells.Wrap("The car's own workshop manual goes before any of this.", width - 4).Select(text => Line.Of("  " + text, Role.Faint)),
        ];
    }

    /// <summary>One of the car's own, in full.</summary>
    public static IReadOnlyList<Line> One(Limit limit, string check, int width, Signs signs)
    {
        (string Label, string? Text)[] facts =
            [("Check", check), ("Figures", Figures(limit)), ("Trust", limit.TrustText), ("Source", limit.Source), ("As printed", limit.Printed), ("Note", limit.Note), ("Library id", limit.LibraryId), ("Entry", $"{limit.Entry.Id}, version {limit.Entry.Version}")];
        return [.. facts.Where(fact => fact.Text is not null).SelectMany(fact => Fact(fact.Label, fact.Text!, width, signs))];
    }

    /// <summary>The same on one line, for plain output.</summary>
    public static string Plain(LibraryLimit limit, Signs signs) =>
        Clean.Of($"{limit.Id}  {Near(limit.Closeness)}: {limit.Title}, {Said(limit)}; for {limit.Car} ({limit.TrustText}: {limit.Source})", signs);

    /// <summary>The one that judges the readings of a check: one's own entry, else the last that was taken.</summary>
    public static Limit? InForce(IReadOnlyList<Limit> limits, string check) =>
        limits.Where(each => each.Check == check).OrderBy(each => each.Trust is "own").LastOrDefault();

    private static string Near(string? closeness) => closeness?.Replace('-', ' ') ?? "";

    private static string Said(LibraryLimit limit) => limit.Figures.Length > 0 ? limit.Figures : limit.Printed;

    private static string Short(string trust) => trust switch
    {
        "own" => "own entry",
        "common-practice" => "practice",
        "memory" => "MEMORY",
        _ => trust,
    };

    internal static string Figures(Limit limit)
    {
        if (limit.Points is not { Count: > 0 } points) return Span(limit.Low, limit.High, limit.Unit);
        return string.Join(", ", points.Select(point => point.Minutes is { } minutes
            ? $"{Span(point.Low, point.High, limit.Unit)} after {Words.Figures.Minutes(minutes)}"
            : $"{Span(point.Low, point.High, limit.Unit)} at {Words.Figures.Plain(point.At ?? 0)}"));
    }

    private static string Span(double? low, double? high, string unit) => (low, high) switch
    {
        ({ } from, { } to) => $"{Words.Figures.Plain(from)} to {Words.Figures.Plain(to)} {unit}",
        ({ } from, null) => $"at least {Words.Figures.Plain(from)} {unit}",
        (null, { } to) => $"at most {Words.Figures.Plain(to)} {unit}",
        _ => "",
    };

    private static Line Row(string near, string text, string trust, int row, int width, Signs signs)
    {
        var room = width - 2 - NearWidth - TrustWidth - 3;
        // the trust stands before what may be cut off or covered
        return Line.Of(row, new Span($"  {Cells.Fit(near, NearWidth, signs)} ", Role.Faint), new Span(Cells.Fit(trust, TrustWidth, signs) + " ", trust is "MEMORY" ? Role.Warning : Role.Plain),
            new Span(Cells.Cut(Clean.Of(text, signs), room, signs)));
    }

    /// <summary>Always the same number of rows, so that the list does not jump.</summary>
    private static IEnumerable<Line> Detail(IReadOnlyList<Limit> own, IReadOnlyList<LibraryLimit> found, int marked, int width, Signs signs)
    {
        string[] texts = marked < own.Count ? [own[marked].TrustText, own[marked].Source]
            : marked - own.Count < found.Count && found[marked - own.Count] is var limit ? [$"{limit.Car}: {limit.TrustText}", limit.NotForJudging is { } why ? $"not usable: {why}" : limit.Source]
            : [];
        var pieces = texts.SelectMany(text => Cells.Wrap(Clean.Of(text, signs), width - 4)).ToList();
        return Enumerable.Range(0, DetailRows).Select(row => row < pieces.Count
            ? Line.Of("  " + (row == DetailRows - 1 && pieces.Count > DetailRows ? Cells.Cut(pieces[row] + " " + pieces[row + 1], width - 4, signs) : pieces[row]), row == 0 ? Role.Title : Role.Faint) : Line.Blank);
    }

    private static IEnumerable<Line> Fact(string label, string text, int width, Signs signs)
    {
        const int labelWidth = 11;
        return Cells.Wrap(Clean.Of(text, signs), width - labelWidth - 5).Select((piece, at) => Line.Of(null, new Span($"  {Cells.Fit(at == 0 ? label : "", labelWidth, signs)} ", Role.Faint), new Span(piece)));
    }
}
