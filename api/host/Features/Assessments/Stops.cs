using FuelHistory.Core.Assessment;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>What must not be done now. Also where the findings contradict each other or are too many: what is dangerous stays so.</summary>
internal static class Stops
{
    /// <param name="text">Of a record entry, by its id.</param>
    public static IReadOnlyList<Contracts.StopNote> Of(Gathered gathered, Func<string, string> text) =>
        [.. StopNotes.Standing(gathered.InUse.Model, gathered.Input)
            .Select(s => new Contracts.StopNote(s.Note.Id, s.Note.Title, s.Note.Say, text(s.Finding), s.Note.Until, s.Note.Forbids))];
}
