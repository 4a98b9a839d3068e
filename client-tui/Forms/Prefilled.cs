using System.Globalization;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>Puts what is known into the fields of a form.</summary>
internal static class Prefilled
{
    /// <summary>Everything but the moment: a tried finding has none of its own.</summary>
    public static Form WithFinding(this Form form, NewFinding finding)
    {
        form.With("event", finding.Event).With("when", Joined(finding.When)).With("then", Joined(finding.Then)).WithTrial(finding.Trial).WithOwn(finding.Own).With("component", finding.Component)
            .With("mode", finding.Mode is null ? null : $"{finding.Component}.{finding.Mode}")
            .With("outcome", finding.Outcome).With("how", finding.How).With("sure", finding.Sure ? "yes" : "no")
            .With("reading", Text(finding.Reading))
            .With("points", finding.Points is null ? null : string.Join("; ", finding.Points.Select(point => $"{Text(point.Minutes)}: {Text(point.Pressure)}")))
            .With("instrument", finding.Instrument);
        var conditions = finding.Conditions ?? new Dictionary<string, Measured>();
        foreach (var (id, value) in conditions) form.With($"conditions/{id}", Text(value));
        return form.With("conditions", string.Join("; ", conditions.Select(each => $"{each.Key}={Text(each.Value)}")))
            .With("showed", finding.Showed).With("session", finding.Session).With("note", finding.Note);
    }

    private static string? Joined(IReadOnlyList<string>? ids) => ids is null ? null : string.Join(',', ids);

    private static Form WithTrial(this Form form, TrialDone? trial) => trial is null ? form
        : form.With("trial", trial.Trial).With("do", trial.Do).With("tried", trial.Component).With("stand-in", trial.StandIn).With("back", trial.Back);

    private static Form WithOwn(this Form form, OwnObservation? own) => own is null ? form
        : form.With("own", own.Words).With("strength", own.Strength).With(own.Direction, own.Component).With("side", own.Side is null ? null : $"{own.Side}={own.Direction}");

    public static Form WithWork(this Form form, NewWork work) =>
        form.With("date", work.Date).With("at", work.At is { } at ? Moment(at) : null).With("action", work.Action).With("components", string.Join(',', work.Components))
            .With("known", work.Known).With("quality", work.Quality).With("odometer", Text(work.Odometer))
            .With("maker", work.Maker).With("partNumber", work.PartNumber)
            .With("cost", work.Cost is null ? null : $"{work.Cost.Amount.ToString(CultureInfo.InvariantCulture)} {work.Cost.Currency}")
            .With("reason", work.Reason).With("partAgeYears", Text(work.PartAgeYears))
            .With("outcome", work.Outcome).With("mode", work.Mode is null ? null : $"{work.Components[0]}.{work.Mode}").With("how", work.How).With("sure", work.Sure ? "yes" : "no").With("note", work.Note);

    public static Form WithVehicle(this Form form, Vehicle was) =>
        form.With("name", was.Name).With("year", was.Year).With("system", was.System).With("make", was.Make).With("model", was.Model).With("engine", was.Engine).With("odometerUnit", was.OdometerUnit)
            .With("inUseSince", was.InUseSince).With("recordComplete", was.RecordComplete ? "yes" : "no")
            .With("options", was.Options is null ? null : string.Join(", ", was.Options.Select(each => $"{each.Key}={each.Value}"))).With("note", was.Note);

    public static Form WithLimit(this Form form, Limit was) =>
        form.With("check", was.Check).With("unit", was.Unit).With("low", Text(was.Low)).With("high", Text(was.High)).With("from", Text(was.From))
            .With("points", was.Points is null ? null : string.Join("; ", was.Points.Select(Point))).With("source", was.Source).With("note", was.Note);

    public static Form WithInstrument(this Form form, Instrument was) =>
        form.With("name", was.Name).With("quantity", was.Quantity).With("unit", was.Unit).With("span", Text(was.Span)).With("classPercent", Text(was.ClassPercent))
            .With("resolution", Text(was.Resolution)).With("percentOfReading", Text(was.PercentOfReading)).With("digits", Text(was.Digits))
            .With("lastChecked", was.LastChecked).With("note", was.Note);

    public static NewFinding Of(Finding was) => new(was.At, was.Event, was.Check, was.Component, was.Mode, was.Outcome, was.Sure, was.Reading, was.Points, was.Instrument,
        was.Conditions, was.Session, was.Showed, Note: was.Note, When: was.When, Then: was.Then, Trial: was.Trial, Own: was.Own, How: was.How);

    public static NewWork Of(Work was) => new(was.Date, was.Action, was.Components, was.Known, was.At, was.Quality, was.PartAgeYears, was.Odometer, was.Maker, was.PartNumber, was.Cost, was.Reason, was.Note,
        was.Outcome, was.Mode, was.How, was.Sure);

    /// <summary>An instant with its offset, as a form reads it back.</summary>
    public static string Moment(DateTimeOffset at) => at.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFFFFFzzz", CultureInfo.InvariantCulture);

    private static string Point(LimitPoint point) => point.Minutes is { } minutes
        ? $"{Text(minutes)}: {Text(point.Low)}"
        : $"{Text(point.At)}: {Text(point.Low)}..{Text(point.High)}";

    private static string? Text(double? value) => value is { } number ? number.ToString("R", CultureInfo.InvariantCulture) : null;

    public static string? Text(Measured? value) => value is null ? null : $"{Text(value.Value)} {value.Unit}";
}
