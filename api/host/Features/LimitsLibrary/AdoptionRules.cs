using FuelHistory.Contracts;
using FuelHistory.Core.Library;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.LimitsLibrary;

using LibraryLimit = FuelHistory.Core.Library.LibraryLimit;
using LimitPoint = FuelHistory.Contracts.LimitPoint;

/// <summary>Whether a limit of the library can judge a check of the vehicle, and what is stored then.</summary>
public sealed class AdoptionRules(LibraryFolder folder, FaultModelFolder models, LimitRules limits)
{
    public Refused? Check(Step step, Adoption input)
    {
        var (faults, car) = (step.Faults, step.Car!);
        faults.Known("/check", "check", input.Check, car.Model.Checks.Select(c => c.Id));
        faults.Known("/libraryId", "limit", input.LibraryId, folder.Library.Limits.Select(l => l.Id));
        if (!faults.None || folder.Library.Find(input.LibraryId) is not { } limit)
        {
            return null;
        }

        if (!limit.Systems.Contains(models.SystemOf(car.Vehicle.System)))
        {
            faults.Add("/libraryId", Problems.Unsuitable, $"The limit is for other fuel systems ({string.Join(", ", limit.Systems)}).");
        }
        else if (limit.Checks.Where(c => car.Check(c) is not null).ToList() is { Count: > 0 } read && !read.Contains(input.Check))
        {
            faults.Add("/check", Problems.Unsuitable, $"The limit is for {string.Join(" or ", read)}, which reads something else than \"{input.Check}\".");
        }
        else if (LibraryFigures.WhyNot(limit, car.Check(input.Check)!) is { } why)
        {
            faults.Add("/libraryId", Problems.Unsuitable, why);
        }
        else
        {
            var inner = step with { Faults = new Faults() };
            limits.Check(inner, Limit(car, limit, input.Check), adopted: true);
            foreach (var fault in inner.Faults.Found)
            {
                faults.Add("/libraryId", Problems.Unsuitable, fault.Detail);
            }
        }

        return null;
    }

    /// <summary>Once checked.</summary>
    public LimitContent Content(Step step, Adoption input)
    {
        var limit = folder.Library.Find(input.LibraryId)!;
        return new LimitContent(
            Limit(step.Car!, limit, input.Check),
            new Adopted(limit.Id, folder.Library.SourceOf(limit).Kind, limit.Printed, Reserve(limit, step.Car!.Vehicle, input.Check)));
    }

    /// <summary>MODEL.md 5: only a document's own figures for this very car are taken as exact.</summary>
    private string? Reserve(LibraryLimit limit, Vehicle vehicle, string check)
    {
        string?[] reserves =
        [
            folder.Library.SourceOf(limit).Kind is "published" or "excerpt" ? null : "this car's may differ",
            limit.PartlyOurs ? LimitWords.PartlyOurs : null,
            LibrarySearch.Of(limit.Given, LibraryEndpoints.Car(vehicle)) == Closeness.ThisCar ? null : "not given for this very car",
            limit.Checks.Contains(check) ? null : "not read in the way of this check",
        ];
        return string.Join(", ", reserves.Where(r => r is not null)) is { Length: > 0 } words ? words : null;
    }

    private NewLimit Limit(Car car, LibraryLimit l, string check)
    {
        var seen = LibraryViews.Of(folder.Library, l);
        string?[] notes = [l.Point, l.SetUp.Count > 0 ? string.Join(", ", l.SetUp) : null, l.Seconds is { } s ? $"in {Names.Number(s)} s" : null, l.Worked, l.Misprint, l.Remark, l.Checks.Contains(check) ? null : l.NoCheck];
        return new NewLimit(
            check, l.Unit!, $"{seen.Source} (for: {seen.Car})", l.Low, l.High, l.HoldFrom,
            l.Points.Count == 0 ? null : [.. LibraryFigures.PointsFor(l, car.Check(check)!).Select(p => new LimitPoint(p.Minutes, p.At, p.Low, p.High))],
            string.Join("; ", notes.Where(n => n is not null)) is { Length: > 0 } note ? note : null);
    }
}
