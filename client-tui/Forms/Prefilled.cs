using System.Globalization;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>Puts an entry into the fields of its form.</summary>
internal static class Prefilled
{
    /// <summary>Everything but the moment and what came of the moment: those are of the real finding.</summary>
    public static Form WithFinding(this Form form, NewFinding finding)
    {
        form.With("symptom", finding.Symptom).With("component", finding.Component)
            .With("mode", finding.Mode is null ? null : $"{finding.Component}.{finding.Mode}")
            .With("outcome", finding.Outcome).With("sure", finding.Sure ? "yes" : "no")
            .With("reading", finding.Reading is null ? null : Figures.Of(finding.Reading))
            .With("points", Points(finding.Points)).With("instrument", finding.Instrument);
        foreach (var (id, value) in finding.Conditions ?? new Dictionary<string, Measured>()) form.With($"conditions/{id}", Figures.Of(value));
        return form.With("showed", finding.Showed).With("session", finding.Session).With("note", finding.Note);
    }

    public static Form WithWork(this Form form, NewWork work) =>
        form.With("date", work.Date).With("action", work.Action).With("components", string.Join(',', work.Components)).With("known", work.Known)
            .With("quality", work.Quality).With("odometer", work.Odometer is null ? null : Figures.Of(work.Odometer))
            .With("maker", work.Maker).With("partNumber", work.PartNumber)
            .With("cost", work.Cost is null ? null : $"{work.Cost.Amount.ToString(CultureInfo.InvariantCulture)} {work.Cost.Currency}")
            .With("reason", work.Reason).With("partAgeYears", work.PartAgeYears is { } age ? Figures.Plain(age) : null).With("note", work.Note);

    /// <summary>An instant with its offset, as a form reads it back.</summary>
    public static string Moment(DateTimeOffset at) => at.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture);

    private static string? Points(IReadOnlyList<PressurePoint>? points) =>
        points is null ? null : string.Join("; ", points.Select(point => $"{Figures.Plain(point.Minutes)}: {Figures.Of(point.Pressure)}"));
}
