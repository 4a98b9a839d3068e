using FuelHistory.Contracts;
using FuelHistory.Host.Features.Complaints;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.Findings;
using FuelHistory.Host.Features.Records;
using FuelHistory.Host.Features.Works;
using FuelHistory.Host.Http;
using FuelHistory.Host.Sqlite;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>Answers "what if": one state of the file is read, nothing is written.</summary>
public sealed class WhatIfAnswers(
    SqliteFile file, TimeProvider clock, Cars cars, ComplaintStore complaints, FindingStore findings, WorkStore works, WhatIfRules rules,
    AssessmentInputs inputs, PresentAnswers present, AssessmentGate gate)
{
    public static Task<Results<Ok<WhatIfAnswer>, Refused>> Post(string complaintId, WhatIf input, WhatIfAnswers answers, CancellationToken cancel) =>
        answers.Of(complaintId, input, cancel);

    public async Task<Results<Ok<WhatIfAnswer>, Refused>> Of(string complaintId, WhatIf input, CancellationToken cancel)
    {
        // 1. what is asked, held against the record
        using Session session = new(file, clock, reads: true);
        if (complaints.Versions(session.Connection, complaintId) is not [var complaint, ..])
        {
            return ProblemAnswers.NotFound("complaint", complaintId);
        }

        Step step = new(session, cars.Find(session.Connection, complaint.VehicleId), new Faults(), null);
        if (Checked(step, input) is not { } day)
        {
            return ProblemAnswers.Invalid(step.Faults);
        }

        // 2. the answers as they are
        var (refusal, now) = await present.FindBoth(complaintId, day, cancel);
        if (refusal is not null)
        {
            return refusal;
        }

        // 3. the answers as they would be
        var all = findings.OfVehicle(session.Connection, step.Car!);
        DateTimeOffset? last = all.Where(f => f.ComplaintId == complaintId && f.Entry.VoidReason is null).Max(f => (DateTimeOffset?)f.At);
        var supposed = Supposition.Of(input, complaint, step.Car!.Model, session.Now, last);
        if (supposed.Nothing)
        {
            return TypedResults.Ok(Comparison.Of(now!, now!, [], []));
        }

        if (inputs.Gather(session.Connection, complaintId, day, null, supposed, out var gathered) is { } closed)
        {
            return closed;
        }

        var then = await gate.Run(() => BothAnswers.Of(gathered!, day, cancel), cancel);
        return TypedResults.Ok(Comparison.Of(now!, then, Said(step.Car, supposed.Findings, supposed.Work), Without(session, step.Car, all, supposed)));
    }

    /// <returns>The day to assess; null with faults. Without one given it is today, or tomorrow where something tried bears that date already.</returns>
    private DateOnly? Checked(Step step, WhatIf input)
    {
        var asked = AssessedDay.Read(step.Faults, "/asOf", input.AsOf);
        rules.Check(step, input);
        if (!step.Faults.None)
        {
            return null;
        }

        var day = asked ?? WhatIfRules.Days(input).Select(d => d.On).Append(step.Session.Today).Max();
        WhatIfRules.Happened(step.Faults, input, day);
        return step.Faults.None ? day : null;
    }

    private List<string> Without(Session session, Car car, IReadOnlyList<Finding> all, Supposition supposed) => Said(
        car,
        all.Where(f => supposed.LeaveOut.Contains(f.Entry.Id)),
        works.OfVehicle(session.Connection, car.Vehicle.Entry.Id).Where(w => supposed.LeaveOut.Contains(w.Entry.Id)));

    private static List<string> Said(Car car, IEnumerable<Finding> findings, IEnumerable<Work> work) =>
        [.. findings.Select(f => f.Text), .. work.Select(w => $"{Sentences.Of(w, car.Model)}, {w.Date}")];
}
