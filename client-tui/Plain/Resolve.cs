using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Plain;

/// <summary>A name that fits nothing, or several things; said to the user as a wrong use of the command.</summary>
internal sealed class NameFailure(string message) : Exception(message);

/// <summary>Turns what was written into the vehicle or complaint that is meant: an id, a name, or the beginning of one.</summary>
internal sealed class Resolve(ApiCalls calls, CancellationToken ct)
{
    public async Task<Answer<Vehicle>> Vehicle(string text) =>
        (await calls.Ask(api => api.Vehicles("true", ct))).As(all => One(InUseFirst(all, text), vehicle => new(vehicle.Entry.Id, vehicle.Name), text, "vehicle"));

    /// <summary>Open complaints go before closed ones of the same name; a vehicle's name stands for its only open complaint.</summary>
    public async Task<Answer<Complaint>> Complaint(string text) =>
        (await All()).As(all =>
        {
            var open = all.Complaints.Where(each => each.Closed is null && each.Entry.VoidReason is null).ToList();
            if (Find(open, text) is { } found) return found;
            if (Find(all.Complaints, text) is { } closed) return closed;
            var (vehicle, _) = Names.One([.. all.Vehicles.Select(each => new NamedThing(each.Entry.Id, each.Name))], text);
            if (vehicle is not null && open.Where(each => each.VehicleId == vehicle.Id).ToList() is [var only]) return only;
            return One(vehicle is null ? all.Complaints : [.. open.Where(each => each.VehicleId == vehicle.Id)], each => new(each.Entry.Id, each.Title), text, "complaint");
        });

    /// <summary>A complaint where one fits, else a vehicle.</summary>
    public async Task<Answer<(string? ComplaintId, string VehicleId)>> Subject(string text) =>
        (await All()).As<(string?, string)>(all =>
        {
            if (Find(all.Complaints, text) is { } complaint) return (complaint.Entry.Id, complaint.VehicleId);
            return (null, One(all.Vehicles, vehicle => new(vehicle.Entry.Id, vehicle.Name), text, "vehicle or complaint").Entry.Id);
        });

    /// <summary>"model/check", or a check alone where one fault model has it.</summary>
    public async Task<Answer<(string ModelId, string CheckId)>> Check(string text)
    {
        var parts = text.Split('/', 2);
        if (parts.Length == 2) return new Got<(string, string)>((parts[0], parts[1]));
        var systems = await Systems();
        return await systems.Then(async models =>
        {
            Answer<List<(string Model, CheckView Check)>> all = new Got<List<(string, CheckView)>>([]);
            foreach (var id in models)
                all = await all.Then(async known => (await calls.Ask(api => api.FaultModel(id, ct))).As<List<(string, CheckView)>>(model => [.. known, .. model.Checks.Select(check => (model.Id, check))]));
            return all.As(known => One(known, each => new(Shared(known, each.Check.Id) ? $"{each.Model}/{each.Check.Id}" : each.Check.Id, each.Check.Title), text, "check")).As(found => (found.Model, found.Check.Id));
        });
    }

    private static bool Shared(List<(string Model, CheckView Check)> known, string id) => known.Count(each => each.Check.Id == id) > 1;

    /// <summary>The fuel systems of the cars on record, since several systems have checks of one name; all where there is no car yet.</summary>
    private async Task<Answer<IReadOnlyList<string>>> Systems()
    {
        var vehicles = await calls.Ask(api => api.Vehicles(null, ct));
        return await vehicles.Then(async known => known.Count > 0
            ? new Got<IReadOnlyList<string>>([.. known.Select(vehicle => vehicle.System).Distinct(StringComparer.Ordinal)])
            : (await calls.Ask(api => api.FaultModels(ct))).As<IReadOnlyList<string>>(heads => [.. heads.Select(head => head.Id)]));
    }

    private async Task<Answer<(IReadOnlyList<Vehicle> Vehicles, IReadOnlyList<Complaint> Complaints)>> All()
    {
        var vehicles = await calls.Ask(api => api.Vehicles(null, ct));
        return await vehicles.Then(async known =>
        {
            Answer<IReadOnlyList<Complaint>> all = new Got<IReadOnlyList<Complaint>>([]);
            foreach (var vehicle in known)
                all = await all.Then(async before => (await calls.Ask(api => api.Complaints(vehicle.Entry.Id, ct))).As<IReadOnlyList<Complaint>>(more => [.. before, .. more]));
            return all.As(complaints => (known, complaints));
        });
    }

    /// <summary>An archived vehicle is meant only where no other fits.</summary>
    private static IReadOnlyList<Vehicle> InUseFirst(IReadOnlyList<Vehicle> all, string text)
    {
        IReadOnlyList<Vehicle> inUse = [.. all.Where(each => !each.Archived)];
        var (_, wrong) = Names.One([.. inUse.Select(each => new NamedThing(each.Entry.Id, each.Name))], text);
        var (found, _) = Names.One([.. all.Where(each => each.Archived).Select(each => new NamedThing(each.Entry.Id, each.Name))], text);
        return wrong is null || found is null ? inUse : all;
    }

    private static Complaint? Find(IReadOnlyList<Complaint> complaints, string text)
    {
        var (found, _) = Names.One([.. complaints.Select(each => new NamedThing(each.Entry.Id, each.Title))], text);
        return complaints.FirstOrDefault(each => each.Entry.Id == found?.Id);
    }

    /// <exception cref="NameFailure">Where the text fits none or several.</exception>
    public static T One<T>(IReadOnlyList<T> among, Func<T, NamedThing> name, string text, string kind)
    {
        var (found, wrong) = Names.One([.. among.Select(name)], text);
        return wrong is null ? among.First(each => name(each).Id == found!.Id) : throw new NameFailure($"No {kind} can be told from this: {wrong}");
    }
}
