using FuelHistory.Client.Forms;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

/// <summary>What the plain commands print where a screen would show a part only: everything, in order, with ids.</summary>
internal static class PlainLines
{
    public static IReadOnlyList<Line> Record(RecordView record, int width, Signs signs)
    {
        List<Line> lines = [Line.Of(Clean.Of($"{record.Vehicle.Name}, {record.Vehicle.Year}, {record.Vehicle.System}; {VehicleLines.State(record.Vehicle)}", signs))];
        if (record.Lines.Count == 0) lines.Add(Line.Of("Nothing is recorded yet."));
        foreach (var line in record.Lines)
        {
            lines.Add(Line.Of(Clean.Of($"{line.Date}  {line.Kind}  {(line.VoidReason is null ? "" : $"VOID ({line.VoidReason}): ")}{line.Text}  [{line.Id}]", signs)));
            if (line.Detail is not null) lines.AddRange(Cells.Wrap(Clean.Of(line.Detail, signs), width - 4).Select(text => Line.Of("    " + text)));
        }
        return lines;
    }

    public static IReadOnlyList<Line> Likely(Assessment assessment, Advice advice, Complaint complaint, int width, Signs signs)
    {
        List<Line> lines = [.. StopLines.Full(assessment, signs), Line.Of(Clean.Of($"{complaint.Title} ({(complaint.Closed is null ? "open" : "closed")}), as of {assessment.AsOf}", signs))];
        if (assessment.Outcome is not "answered") lines.Add(Line.Of($"Outcome: {assessment.Outcome}"));
        if (assessment.Items.Count > 1) lines.Add(Line.Of(Clean.Of("Consists of: " + string.Join("; ", assessment.Items.Select(item => item.Title)), signs)));
        lines.AddRange(LikelyLines.Ranking(assessment, 0, assessment.Ranking.Count, width, signs));
        lines.Add(Line.Of($"Resolved: {PlainFigures.Chance(assessment.Resolved, assessment.Figures)}; none of these: {PlainFigures.Share(assessment.NoneOfThese, assessment.Figures)} of it; other cause: {PlainFigures.Chance(assessment.OtherCause, assessment.Figures)}; more than one repair needed for {PlainFigures.Share(assessment.MoreThanOne, assessment.Figures)} of it"));
        foreach (var ranked in assessment.Ranking.Take(3)) lines.AddRange(WhyLines.Short(ranked, assessment.Figures, width, signs));
        foreach (var next in advice.NextChecks.Take(3))
        {
            lines.Add(LikelyLines.Rule(Clean.Of($"{(next.Trial ? "Trial" : "Check")}: {next.Title} [{next.Check}]", signs), width, signs));
            lines.Add(Line.Of(Clean.Of("  " + CheckLines.Price(next, assessment.Currency), signs)));
            if (next.Why.Length > 0) lines.AddRange(Cells.Wrap(Clean.Of(next.Why, signs), width - 4).Select(text => Line.Of("  " + text)));
            lines.AddRange(next.Outcomes.Select(outcome => Line.Of(Clean.Of("  " + LikelyLines.Outcome(outcome, advice.Figures), signs))));
        }
        if (advice.Plan is not null) lines.AddRange(PlanLines.Of(assessment, advice, width, signs).Prepend(LikelyLines.Rule("Repair plan", width, signs)));
        string[] rest = [.. assessment.Disagreements.Select(each => each.Sentence), .. assessment.Asks, .. assessment.Flip is { } flip ? [flip.Sentence] : Array.Empty<string>(), .. assessment.Contradicting.Select(id => $"cannot be true beside the others: {id}"), .. assessment.LeftOut.Select(each => $"left out: {each}"), .. assessment.Notes];
        lines.AddRange(rest.Select(text => Line.Of(Clean.Of("! " + text, signs))));
        return lines;
    }

    public static IReadOnlyList<Line> WhatIf(WhatIfAnswer answer, int width, Signs signs)
    {
        List<Line> lines =
        [
            .. answer.Tried.Select(text => Line.Of(Clean.Of($"Tried: {text}", signs))), .. answer.Without.Select(text => Line.Of(Clean.Of($"Left out: {text}", signs))),
            .. WhatIfLines.Effect(answer, asking: false, answer.Changes.Count, width, signs),
            Line.Of("Nothing is stored."),
        ];
        return lines;
    }

    public static string Limit(Limit limit, Signs signs)
    {
        List<string> facts = [];
        if (limit.Low is { } low) facts.Add($"at least {Figures.Plain(low)} {limit.Unit}");
        if (limit.High is { } high) facts.Add($"at most {Figures.Plain(high)} {limit.Unit}");
        if (limit.From is { } from) facts.Add($"from {Figures.Plain(from)} {limit.Unit}");
        facts.AddRange((limit.Points ?? []).Select(Point));
        if (limit.Entry.VoidReason is { } reason) facts.Add($"VOID: {reason}");
        return Clean.Of($"{limit.Check}: {string.Join(", ", facts)} ({limit.TrustText}: {limit.Source})", signs);

        string Point(LimitPoint point) => point.Minutes is { } minutes
            ? $"after {Figures.Minutes(minutes)} at least {Figures.Plain(point.Low ?? 0)} {limit.Unit}"
            : $"at {Figures.Plain(point.At ?? 0)}: {Figures.Plain(point.Low ?? 0)}..{Figures.Plain(point.High ?? 0)} {limit.Unit}";
    }

    public static IReadOnlyList<Line> Names(FaultModelView model, Signs signs)
    {
        List<Line> lines = [Line.Of(Clean.Of($"{model.Title} ({model.Id}, revision {model.Revision})", signs))];
        Section("Components", model.Components.SelectMany(part => part.Modes.Select(mode => ($"{part.Id}.{mode.Id}", $"{part.Title}: {mode.Title}")).Prepend((part.Id, part.Title))));
        Section("Events", Events.Of(model).Select(each => (each.Id, each.Title)));
        Section("When", Events.When(model).Select(each => (each.Id, each.Title)));
        Section("Then", Events.Then(model).Select(each => (each.Id, each.Title)));
        Section("Trials", model.Trials.Select(each => (each.Id, each.Title)));
        Section("Checks", model.Checks.Select(each => (each.Id, $"{each.Title} ({each.Kind})")));
        Section("Incidents", model.Incidents.Select(each => (each.Id, each.Title)));
        Section("Fitted options (option=choice)", model.Options.SelectMany(each => each.Choices.Select(choice => ($"{each.Id}={choice.Id}", $"{each.Title}: {choice.Title}"))));
        Section("Tools", model.Tools.Select(each => (each.Id, each.Title)));
        return lines;

        void Section(string title, IEnumerable<(string Id, string Title)> things)
        {
            lines.Add(Line.Blank);
            lines.Add(Line.Of(title + ":"));
            lines.AddRange(things.Select(thing => Line.Of(Clean.Of($"  {thing.Id}: {thing.Title}", signs))));
        }
    }
}
